import assert from 'node:assert/strict'
import type { Locator, Page } from 'playwright-core'
import { goTo, nextThing } from '../../support/screen.ts'
import { dropFile, type LogFile } from '../../support/steam-log-file.ts'
import type { UnitClock } from '../../support/unit-clock.ts'
import { unit } from './own-unit.ts'

/** What the machine needs before it may be loaded today; the page asks for one after the other. */
export async function testSteriliser(page: Page, clock: UnitClock): Promise<void> {
  await goTo(page, 'Machines')
  await nextThing(page).getByText(`${unit.steriliser}: run the leak test before anything else.`).waitFor()
  await nextThing(page).getByRole('link', { name: 'Open' }).click()
  const leak = page.getByRole('form', { name: 'Record leak test' })
  await leak.getByRole('spinbutton', { name: 'Pressure at the start, kPa absolute' }).fill('4.2')
  await leak.getByRole('spinbutton', { name: 'Pressure at the end, kPa absolute' }).fill('4.9')
  await leak.getByRole('button', { name: 'Record leak test' }).click()
  await nextThing(page).getByText('air-removal test').waitFor()
  await page.getByRole('button', { name: '0.070 kPa/min' }).waitFor()
  await clock.passes(30, page)
  const air = page.getByRole('form', { name: 'Record test', exact: true })
  await air.getByRole('radio', { name: 'Passed' }).check()
  await air.getByRole('textbox', { name: 'Lot of the indicator' }).fill('BD-9')
  await air.getByRole('button', { name: 'Record test' }).click()
  await nextThing(page).getByText(`${unit.steriliser} is ready: build a load.`).waitFor()
  await clock.passes(10, page)
}

/** Puts one pack into the steriliser; gives the key of the load. */
export async function buildLoad(page: Page, pack: string): Promise<string> {
  await goTo(page, 'Machines')
  await page.getByRole('link', { name: new RegExp(`^Build a load ?: ${unit.steriliser}`) }).click()
  const form = page.getByRole('form', { name: 'Build load' })
  await form.getByRole('checkbox', { name: pack }).check()
  await form.getByRole('textbox', { name: 'Lot of the biological indicator' }).fill('B-77')
  await form.getByText('No rule stands against this.').waitFor()
  await form.getByRole('button', { name: 'Build load' }).click()
  const heading = page.getByRole('heading', { level: 1, name: /^Load / })
  const key = ((await heading.textContent()) ?? '').replace('Load ', '')
  await nextThing(page).getByText('Bring in the log of the cycle.').waitFor()
  return key
}

/** Drops the log of a cycle that began some minutes ago on the page of its load, looks at it, and records it. */
export async function dropLog(page: Page, file: LogFile, cycle: { load: string; startedAt: string; number: string }) {
  const region = page.getByRole('region', { name: 'Cycle log' })
  await dropFile(region.getByText('Drop the log of the cycle here, or choose the file'), file)
  await region.getByText(`Read from ${file.name}`).waitFor()
  const chart = page.getByRole('figure', { name: `Chart of the cycle of load ${cycle.load}` })
  await chart.getByRole('img', { name: /Holding/ }).waitFor()
  const keep = page.getByRole('form', { name: 'Record this cycle' })
  await keep.getByLabel('First reading of the log was at').fill(cycle.startedAt)
  await keep.getByRole('textbox', { name: 'Cycle number on the machine' }).fill(cycle.number)
  await keep.getByRole('button', { name: 'Record this cycle' }).click()
  await keep.waitFor({ state: 'detached' })
  await chart.getByRole('img', { name: /Holding/ }).waitFor()
}

/** What was taken from the names of the columns is kept for the machine, for the logs to come. */
export async function keepMap(page: Page, file: LogFile): Promise<void> {
  const region = page.getByRole('region', { name: 'Cycle log' })
  await dropFile(region.getByText('Drop the log of the cycle here, or choose the file'), file)
  await region.getByText('What each column is', { exact: true }).click()
  await region.getByRole('button', { name: 'Keep this map for the machine' }).click()
  await region.getByText('The map is kept for the machine.').waitFor()
  await region.getByRole('button', { name: 'Another log' }).click()
}

export function verdict(page: Page): Locator {
  return page.getByRole('region', { name: 'Verdict on the cycle' })
}

export async function readChemical(page: Page, where: string): Promise<void> {
  const form = page.getByRole('form', { name: 'Record chemical indicator' })
  if (!(await form.isVisible())) await page.getByText('Read a chemical indicator', { exact: true }).click()
  await form.getByRole('radio', { name: where }).check()
  await form.getByRole('radio', { name: 'Changed as it should' }).check()
  await form.getByRole('button', { name: 'Record chemical indicator' }).click()
  await page
    .getByText(new RegExp(`^${where}, Type`))
    .first()
    .waitFor()
}

export function decision(page: Page): Locator {
  return page.getByRole('form', { name: 'Record decision' })
}

/** Release is chosen, and the page says that it may not be and why. */
export async function releaseIsRefused(page: Page, because: RegExp): Promise<void> {
  const form = decision(page)
  await form.getByRole('radio', { name: 'Release' }).check()
  await form.getByText('The rules stand against this:').waitFor()
  await form.getByRole('list', { name: 'Findings' }).getByText(because).first().waitFor()
  assert.equal(await form.getByRole('button', { name: 'Record decision' }).isDisabled(), true)
}
