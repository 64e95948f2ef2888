import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { KnownRow } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { nextThing, noTroubles, openScreen, workAs } from '../support/screen.ts'
import { UnitClock } from '../support/unit-clock.ts'
import { dayUnit, furnishDay } from './walks/day-unit.ts'

/* A pack is found wet when the steriliser is unloaded, long before it would lie on a shelf: it is noted there and then. */

const clock = new UnitClock('2026-03-02T07:00:00.000Z')
const pictures = process.env['WET_PICTURES']
let browser: Browser
let service: RunningService

before(async () => {
  browser = await openBrowser()
  service = await runService({ screens: builtScreens, now: clock.now })
  await furnishDay(service, clock)
  const built = { load: 'load:m', machine: 'machine:steam', program: 'porous-134', purpose: 'goods' }
  const body = { ...built, rounds: ['round:mesh-1'], challenge: { biologicalLot: 'GS-1' } }
  const head = { id: v7(), site: 'unit', happenedAt: clock.now(), by: 'person:sam-idris', workstation: 'Desk' }
  const answer = await service.ask('POST', '/api/entries', { ...head, kind: 'load-built', body })
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
})

after(async () => {
  await browser.close()
  await service.close()
})

async function look(page: Page, name: string): Promise<void> {
  if (pictures === undefined) return
  for (const width of [390, 820, 1440]) {
    /* oxlint-disable no-await-in-loop: one picture after the other */
    await page.emulateMedia({ colorScheme: width === 820 ? 'light' : 'dark' })
    await page.setViewportSize({ width, height: 1000 })
    await page.screenshot({ path: `${pictures}/${name}-${width}.png`, fullPage: true })
    assert.deepEqual(await sticksOut(page), [], `${name} at ${width} px`)
    /* oxlint-enable no-await-in-loop */
  }
}

test('a wet pack is noted on the page of its load, is not released, and leads back to the wash room', async () => {
  await using screen = await openScreen(browser, service.url, { at: clock.milliseconds() })
  const { page } = screen
  await workAs(page, dayUnit.technician)
  await page.goto('/loads/m')
  await page.getByText('A pack is torn, wet or dropped', { exact: true }).click()
  const form = page.getByRole('form', { name: 'Record condition' })
  await form.getByRole('radio', { name: 'Wet' }).check()
  assert.deepEqual(await violationsOf(page), [])
  await look(page, 'load-wet')
  await form.getByRole('button', { name: 'Record condition' }).click()
  await page.getByText('Recorded. A pack that is not intact is not used').waitFor()
  const why = page.getByRole('region', { name: 'Why it cannot be released' })
  await why.getByText(/^Stop. .*\(mesh-1\) came out wet/).waitFor()
  assert.equal(((await service.ask('GET', '/api/known/round:mesh-1')).body as KnownRow).standing, 'damaged')

  await page.goto('/rounds/mesh-1')
  await nextThing(page).getByText('The pack is damaged: it begins a new round in the wash room.').waitFor()
  assert.equal(await page.getByText('A pack is torn, wet or dropped', { exact: true }).count(), 0)
  await look(page, 'round-wet')
  await nextThing(page).getByRole('link', { name: 'To the wash room' }).click()
  await page.getByRole('heading', { level: 1, name: 'Wash room' }).waitFor()
  await look(page, 'wash-room-wet')
  noTroubles(screen)
})
