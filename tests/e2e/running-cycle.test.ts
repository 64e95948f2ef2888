import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { v7 } from 'uuid'
import { EntryId, type SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import type { DemoSource } from '#service/unit/demo-source.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { runService } from '../support/running-service.ts'
import { noTroubles, openScreen, until, workAs } from '../support/screen.ts'

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

/** A demonstration of one steriliser and a load that waits since half an hour, so that a cycle counted back fits it. */
const oneMachine: DemoSource = {
  total: 4,
  *steps({ site, now }) {
    const ago = (minutes: number) => instant(Date.parse(now) - minutes * 60_000)
    const entry = (kind: string, minutes: number, body: SentEntry['body']) => ({
      kind: 'entry' as const,
      entry: {
        id: EntryId.parse(v7()),
        site,
        kind,
        happenedAt: ago(minutes),
        by: 'person:ada' as const,
        workstation: 'Test bench',
        body,
      },
    })
    yield entry('person-registered', 90, { person: 'person:ada', name: 'Ada', roles: ['reprocessing', 'manager'] })
    yield entry('unit-opened', 90, { unit: 'unit:unit', name: 'Harbour Road', timeZone: 'UTC', demonstration: true })
    yield entry('machine-registered', 90, {
      machine: 'machine:a',
      name: 'Steriliser A',
      type: 'steamSteriliser',
      airRemoval: 'gravity',
      chamberLitres: 450,
      programs: ['porous-134'],
      logMap: {
        time: { column: 'elapsed', format: 'seconds' },
        pressure: { column: 'chamber pressure', unit: 'kPa', gauge: false },
        reference: { column: 'drain', unit: 'C' },
      },
    })
    yield entry('load-built', 35, {
      load: 'load:l1',
      machine: 'machine:a',
      program: 'porous-134',
      purpose: 'goods',
      rounds: [],
    })
  },
}

test('a cycle grows on the screen, is no pass while it runs, and is read in for its load by a person', async () => {
  await using service = await runService({ demo: oneMachine, screens: builtScreens })
  assert.equal((await service.ask('POST', '/api/unit', { choice: 'demonstration' })).status, 202)
  await until(
    'the demonstration',
    async () => (await service.ask('GET', '/api/unit')).body,
    (unit) => JSON.stringify(unit).includes('"open"'),
  )
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await workAs(page, 'Ada')
  await page.goto('/machines/a')
  const practice = page.getByRole('region', { name: 'Simulated machine' })
  await practice.getByLabel('Fault planted in it').selectOption({ label: 'the holding time is short' })
  await practice.getByLabel('Speed').selectOption({ label: '300 times faster' })
  await practice.getByRole('button', { name: 'Run a cycle' }).click()
  const running = page.getByRole('region', { name: 'Cycle that is running' })
  await running.getByText('Simulated, at 300 times true speed. Fault planted: the holding time is short.').waitFor()
  const held = running.getByRole('row', { name: /^Holding time/ })
  await held.waitFor()
  assert.match((await held.textContent()) ?? '', /Not evaluable yet/)
  assert.equal(await running.getByText('Met', { exact: true }).count(), 0)
  // It is over when it is drawn no more; then it waits for a person.
  await running.waitFor({ state: 'detached' })
  const came = page.getByRole('region', { name: 'Logs that come by themselves' })
  await came.getByRole('link', { name: 'l1' }).click()
  await page.getByRole('region', { name: 'Came from this machine by itself' }).getByRole('button').click()
  await page
    .getByRole('region', { name: 'Verdict on the cycle' })
    .getByText('Not met', { exact: true })
    .first()
    .waitFor()
  await page.getByRole('button', { name: 'Record this cycle' }).click()
  await page.getByRole('heading', { name: 'Cycle', exact: true }).waitFor()
  const href = await page.getByRole('link', { name: 'Record as PDF' }).getAttribute('href')
  const pdf = await page.request.get(href ?? '')
  assert.equal((await pdf.body()).subarray(0, 5).toString(), '%PDF-')
  noTroubles(screen)
})
