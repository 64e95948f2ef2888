import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { gasLogFile } from '../support/gas-log-file.ts'
import { gasDevice, gasSteriliser } from '../support/gas-parts.ts'
import { violationsOf } from '../support/page-check.ts'
import { cleanAndDry, handWash } from '../support/road-history-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, type Screen, workAs } from '../support/screen.ts'
import { dropFile } from '../support/steam-log-file.ts'
import { UnitClock } from '../support/unit-clock.ts'

/* An evening load of ethylene oxide: its log is dropped and seen, its aeration holds it over the night, in the morning it is released. */

const clock = new UnitClock('2026-06-10T18:00:00.000Z')
const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-gas-'))
const pictures = process.env['GAS_PICTURES']
let browser: Browser
let service: RunningService
let screen: Screen

const start = async (): Promise<RunningService> => await runService({ screens: builtScreens, now: clock.now, folder })

before(async () => {
  browser = await openBrowser()
  service = await start()
})

after(async () => {
  await browser.close()
  await service.close()
  rmSync(folder, { recursive: true, force: true })
})

async function record<K extends KindName>(kind: K, time: string, body: Bodies[K]): Promise<void> {
  const happenedAt = `2026-06-10T${time}:00.000Z`
  const head = { id: v7(), site: 'unit', kind, happenedAt, by: 'person:ada', workstation: 'bench' }
  const answer = await service.ask('POST', '/api/entries', { ...head, body })
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
}

async function furnish(): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Ada' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  await record('device-registered', '06:00', gasDevice)
  const countSheet = [{ device: gasDevice.device, count: 1 }]
  await record('set-registered', '06:01', { set: 'set:a', name: 'Cable A', countSheet })
  await record('machine-registered', '06:02', gasSteriliser)
  await record('reprocessing-started', '08:00', { round: 'round:a', set: 'set:a', because: 'newSet' })
  await record('wash-recorded', '09:00', { wash: 'wash:a', rounds: ['round:a'], how: handWash })
  await record('inspected', '10:00', { round: 'round:a', ...cleanAndDry })
  await record('pack-sealed', '10:10', {
    round: 'round:a',
    wrap: 'pouch',
    material: 'synthetic',
    insideIndicator: { type: '4', lot: 'c' },
    outsideIndicator: { type: '1', lot: 'c' },
    counted: countSheet,
    implant: false,
  })
  await record('load-built', '14:00', {
    load: 'load:e1',
    machine: 'machine:eo',
    program: 'ethylene-oxide',
    purpose: 'goods',
    rounds: ['round:a'],
    challenge: { biologicalLot: 'b1' },
  })
}

test('the log is dropped, read by its names, and drawn with the window of each variable', async () => {
  await furnish()
  screen = await openScreen(browser, service.url, { at: clock.milliseconds() })
  const { page } = screen
  await workAs(page, 'Ada')
  await page.goto('/loads/e1')
  const region = page.getByRole('region', { name: 'Cycle log' })
  const file = gasLogFile('evening.csv', '2026-06-10T14:10:00.000Z')
  await dropFile(region.getByText('Drop the log of the cycle here, or choose the file'), file)
  await region.getByText('What each column is', { exact: true }).click()
  const understood = region.getByRole('table', { name: 'Read as' })
  for (const role of ['time', 'Gas, mg/L', 'temperature, °C', 'Humidity, %', 'stages'])
    await understood.getByRole('cell', { name: role, exact: true }).waitFor()
  const chart = page.getByRole('figure', { name: 'Chart of the cycle of load e1' })
  await chart.getByRole('img', { name: /conditioning; exposure; flushing; Exposure 120 min/ }).waitFor()
  assert.deepEqual(await violationsOf(page), [])
  await look(page, 'gas-log')
  await page.getByRole('button', { name: 'Record this cycle' }).click()
  const verdict = page.getByRole('region', { name: 'Verdict on the cycle' })
  await verdict.getByText('Met', { exact: true }).first().waitFor()
  await verdict.getByRole('row', { name: /^Temperature in its window Met/ }).waitFor()
})

test('the aeration holds the load; its clock survives a reload and a restart of the service', async () => {
  const { page } = screen
  await page.getByRole('button', { name: 'Start the aeration' }).click()
  await page.getByText('This load is held until its aeration has ended.').first().waitFor()
  await page
    .getByRole('timer')
    .getByText(/^1[12]:/)
    .waitFor()
  await page.reload()
  await page
    .getByRole('timer')
    .getByText(/^1[12]:/)
    .waitFor()
  noTroubles(screen)
  await page.context().close()
  await service.close()
  service = await start()
  await clock.passes(60)
  screen = await openScreen(browser, service.url, { at: clock.milliseconds() })
  await workAs(screen.page, 'Ada')
  await screen.page.goto('/loads/e1')
  await screen.page.getByRole('timer').getByText(/^10:/).waitFor()
  await look(screen.page, 'gas-aeration')
})

test('the next morning every screen sounds, the aeration is ended, and the pack is released', async () => {
  const { page } = screen
  await page.goto('/')
  await clock.passes(11.5 * 60, page)
  await page.getByRole('alert').getByText('e1, 55 °C').waitFor()
  await page.goto('/loads/e1')
  await page.getByRole('button', { name: 'End the aeration' }).click()
  await page.getByText(/Aerated for 12\.\d h, never colder than 55 °C\./).waitFor()
  const morning = async <K extends KindName>(kind: K, body: Bodies[K]) => {
    const head = { id: v7(), site: 'unit', kind, happenedAt: clock.now(), by: 'person:ada', workstation: 'bench' }
    const answer = await service.ask('POST', '/api/entries', { ...head, body })
    return answer.status
  }
  const load = 'load:e1' as const
  assert.equal(await morning('chemical-read', { load, where: 'outsidePack', type: '1', result: 'passed' }), 201)
  const release = { load, packs: [{ round: 'round:a' as const, outcome: 'released' as const }] }
  assert.notEqual(await morning('load-decided', release), 201, 'not before the spores are read')
  const control = { lot: 'b1', result: 'growth' as const }
  assert.equal(
    await morning('biological-read', { load, lot: 'b1', result: 'noGrowth', control, incubatedHours: 48 }),
    201,
  )
  const form = page.getByRole('form', { name: 'Record decision' })
  await form.getByRole('radio', { name: 'Release' }).first().check()
  await form.getByRole('button', { name: 'Record decision' }).click()
  await page.getByText('Released', { exact: false }).first().waitFor()
  noTroubles(screen)
})

/** For who wants to see it: pictures at phone and tablet width in both themes, into the folder that is named. */
async function look(page: Page, name: string): Promise<void> {
  if (pictures === undefined) return
  for (const width of [390, 820])
    for (const colorScheme of ['light', 'dark'] as const) {
      // oxlint-disable-next-line no-await-in-loop
      await page.setViewportSize({ width, height: 1180 })
      // oxlint-disable-next-line no-await-in-loop
      await page.emulateMedia({ colorScheme })
      // oxlint-disable-next-line no-await-in-loop
      await page.screenshot({ path: join(pictures, `${name}-${width}-${colorScheme}.png`), fullPage: true })
    }
  await page.setViewportSize({ width: 820, height: 1180 })
}
