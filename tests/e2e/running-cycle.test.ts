import assert from 'node:assert/strict'
import { connect, type Socket } from 'node:net'
import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { v7 } from 'uuid'
import { EntryId, type SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { diceOf } from '#demo/dice.ts'
import { shortHoldCycle, steamLogText } from '#demo/steam-log.ts'
import type { DemoSource } from '#service/unit/demo-source.ts'
import { builtScreens } from '#service/open-service.ts'
import { freePort } from '../support/free-port.ts'
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

/** A demonstration of two sterilisers and a load that waits since half an hour, so that a cycle counted back fits it. */
const oneMachine: DemoSource = {
  total: 5,
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
    for (const key of ['a', 'b'])
      yield entry('machine-registered', 90, {
        machine: `machine:${key}`,
        name: `Steriliser ${key}`,
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

const dial = (port: number) =>
  new Promise<Socket>((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => resolve(socket))
    socket.on('error', reject)
  })

test('a cycle grows on the screen, is no pass while it runs, and is read in for its load by a person', async () => {
  const port = await freePort()
  await using service = await runService({
    demo: oneMachine,
    screens: builtScreens,
    environment: { NILGROWTH_MACHINE_LISTEN: '127.0.0.1' },
  })
  assert.equal((await service.ask('POST', '/api/unit', { choice: 'demonstration' })).status, 202)
  await until(
    'the demonstration',
    async () => (await service.ask('GET', '/api/unit')).body,
    (unit) => JSON.stringify(unit).includes('"open"'),
  )
  const line = { address: '127.0.0.1', port, from: null, startMark: null, endMark: 'CYCLE END', silenceSeconds: 600 }
  const asked = { by: 'person:ada', connection: { folder: null, line } }
  assert.equal((await service.ask('PUT', '/api/machines/machine:a/connection', asked)).status, 200)
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await workAs(page, 'Ada')
  // At true speed it stays to be seen for as long as the test may take.
  await page.goto('/machines/b')
  const practice = page.getByRole('region', { name: 'Simulated machine' })
  await practice.getByLabel('Fault planted in it').selectOption({ label: 'the holding time is short' })
  await practice.getByLabel('Speed').selectOption({ label: 'true speed, some 25 minutes' })
  await practice.getByRole('button', { name: 'Run a cycle' }).click()
  const running = page.getByRole('region', { name: 'Cycle that is running' })
  await running.getByText('Simulated, at true speed. Fault planted: the holding time is short.').waitFor()

  // The other machine is printed for by the test, so that its cycle goes on when the test has looked.
  const printer = await dial(port)
  const lines = steamLogText(diceOf(1)('printed'), shortHoldCycle).text.trimEnd().split('\n')
  const half = Math.round(lines.length * 0.7)
  printer.write(`${lines.slice(0, half).join('\n')}\n`)
  await page.goto('/machines/a')
  const held = running.getByRole('row', { name: /^Holding time/ })
  await held.waitFor()
  assert.match((await held.textContent()) ?? '', /Not evaluable yet/)
  assert.equal(await running.getByText('Met', { exact: true }).count(), 0)
  printer.end(`${lines.slice(half).join('\n')}\nCYCLE END\n`)
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
