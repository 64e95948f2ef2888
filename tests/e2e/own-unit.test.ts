import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { verify } from '#journal/verify/verify.ts'
import { theRoad } from '#road/the-road.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { isSettled, violationsOf } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { goTo, nextThing, noTroubles, openScreen, type Screen, workAs } from '../support/screen.ts'
import { steamLogFile } from '../support/steam-log-file.ts'
import { UnitClock } from '../support/unit-clock.ts'
import { bookCase, endUse, noteWound, openByScanner, recordCase, store } from './walks/case-and-wound.ts'
import {
  buildLoad,
  decision,
  dropLog,
  keepMap,
  readChemical,
  releaseIsRefused,
  testSteriliser,
  verdict,
} from './walks/load.ts'
import { openOwnUnit, registerEverything, unit } from './walks/own-unit.ts'
import { inspectAll, packAll, soak, startFirstRounds, washAll } from './walks/wash-and-pack.ts'

/* One unit from nothing to a wound, on one screen; each test goes on where the one before ended. */

const clock = new UnitClock('2026-03-02T06:00:00.000Z')
let browser: Browser
let service: RunningService
let screen: Screen
let page: Page
let packs: readonly string[] = []
let load = ''

before(async () => {
  browser = await openBrowser()
  service = await runService({ screens: builtScreens, now: clock.now })
  screen = await openScreen(browser, service.url, { at: clock.milliseconds() })
  page = screen.page
})

/** A walk that has come to a halt is not walked on. */
let halted = false
function step(name: string, walk: () => Promise<void>): void {
  test(name, async (t) => {
    if (halted) return t.skip('the walk ended before')
    halted = true
    await walk()
    halted = false
  })
}

after(async () => {
  await browser.close()
  await service.close()
})

step('a unit is set up and everything in it registered by its forms', async () => {
  await isSettled(page)
  assert.deepEqual(await violationsOf(page), [], 'the first start is accessible')
  await openOwnUnit(page)
  await workAs(page, unit.manager)
  await registerEverything(page)
})

step('two new sets are soaked, washed with a proven A0, inspected, counted and sealed', async () => {
  await page.getByRole('button', { name: `Working: ${unit.manager}. Change` }).click()
  await page.getByRole('dialog').getByRole('button', { name: unit.technician }).click()
  await startFirstRounds(page)
  await soak(page, unit.sets)
  await clock.passes(20, page)
  await washAll(page)
  await clock.passes(50, page)
  await inspectAll(page)
  await clock.passes(10, page)
  packs = await packAll(page, clock)
})

step('a log dropped on a load is drawn and judged; release waits for the indicators, then is accepted', async () => {
  await testSteriliser(page, clock)
  load = await buildLoad(page, packs[0] ?? '')
  await releaseIsRefused(page, /cycle/)
  const startedAt = clock.now().slice(0, 16)
  await clock.passes(45, page)
  await keepMap(page, steamLogFile('cycle-0001.csv', 230))
  assert.ok((await known('machine:steriliser-north')).state.logMap, 'the machine knows its columns')
  await dropLog(page, steamLogFile('cycle-0001.csv', 230), { load, startedAt, number: '1' })
  await verdict(page).getByText('Met', { exact: true }).first().waitFor()
  await releaseIsRefused(page, /indicator/)
  await readChemical(page, 'Outside the packs')
  await decision(page)
    .getByText(/^(No rule stands against|Nothing bars) this/)
    .waitFor()
  await decision(page).getByRole('button', { name: 'Record decision' }).click()
  await page.getByText('Released, to be stored').first().waitFor()
  assert.equal((await known(`round:${packs[0] ?? ''}`)).standing, 'released')
})

step('a log that holds too short is refused release with what was found, and its pack is rejected', async () => {
  const second = await buildLoad(page, packs[1] ?? '')
  const startedAt = clock.now().slice(0, 16)
  await clock.passes(45, page)
  await dropLog(page, steamLogFile('cycle-0002.csv', 120), { load: second, startedAt, number: '2' })
  await verdict(page).getByText('Not met', { exact: true }).first().waitFor()
  await verdict(page)
    .getByRole('row', { name: /^Holding time Not met/ })
    .waitFor()
  await readChemical(page, 'Outside the packs')
  await releaseIsRefused(page, /The cycle did not meet its criteria. Reject every pack/)
  await decision(page).getByRole('radio', { name: 'Reject' }).check()
  await decision(page)
    .getByRole('textbox', { name: /^Reason: / })
    .fill('Held too short')
  await decision(page).getByText('No rule stands against this.').waitFor()
  await decision(page).getByRole('button', { name: 'Record decision' }).click()
  await page.getByText('Rejected', { exact: true }).first().waitFor()
  assert.equal((await known(`round:${packs[1] ?? ''}`)).standing, 'rejected')
})

step('the released pack is stored, scanned open for a case, and its set goes back to the soak', async () => {
  const [set] = unit.sets
  await clock.passes(60, page)
  await store(page, set)
  await clock.passes(10, page)
  await bookCase(page)
  await openByScanner(page, packs[0] ?? '', set)
  await clock.passes(70, page)
  await recordCase(page)
  await endUse(page, set)
  await clock.passes(5, page)
  await goTo(page, 'Wash room')
  await nextThing(page).getByText(`Start the soak of ${set}`).waitFor()
  await soak(page, [set])
})

step('a wound noted weeks later is traced back to the load, and nothing complained on the whole way', async () => {
  await clock.passes(24 * 24 * 60, page)
  await noteWound(page)
  for (const key of [load, packs[0] ?? '']) {
    // oxlint-disable-next-line no-await-in-loop
    await page
      .getByRole('figure', { name: /^Picture of the trace/ })
      .getByRole('link', { name: key })
      .first()
      .waitFor()
    const table = page.getByRole('table', { name: 'Every link, with its entry' })
    // oxlint-disable-next-line no-await-in-loop
    await table.getByRole('link', { name: key }).first().waitFor()
  }
  noTroubles(screen)
  assert.deepEqual(service.log, [])
  const verified = await verify({ at: { kind: 'sqlite', file: service.file }, road: theRoad })
  assert.equal(verified.kind, 'sound', JSON.stringify(verified))
})

async function known<Kind extends SubjectKind>(subject: SubjectId<Kind>): Promise<KnownRow<Kind>> {
  const { status, body } = await service.ask('GET', `/api/known/${subject}`)
  assert.equal(status, 200, JSON.stringify(body))
  return body as KnownRow<Kind>
}
