import assert from 'node:assert/strict'
import type { Page } from 'playwright-core'
import { diceOf } from '#demo/dice.ts'
import { washerRun } from '#demo/washer-log.ts'
import { a0Seconds } from '#workings/physics/a0.ts'
import { goTo, nextThing } from '../../support/screen.ts'
import type { UnitClock } from '../../support/unit-clock.ts'
import { unit } from './own-unit.ts'

/** New sets begin their first round in the wash room. */
export async function startFirstRounds(page: Page): Promise<void> {
  await nextThing(page).getByRole('link', { name: 'Go to the wash room' }).click()
  for (const set of unit.sets) {
    await page.getByText(set, { exact: true }).first().click()
    await page.getByRole('button', { name: `Start its first round: ${set}` }).click()
    await page.getByRole('link', { name: new RegExp(`^Start soak ?: ${set}`) }).waitFor()
  }
}

/** Each set that waits is soaked, the one that has waited longest first. */
export async function soak(page: Page, sets: readonly string[]): Promise<void> {
  for (const set of sets) {
    await page.getByRole('link', { name: new RegExp(`^Start soak ?: ${set}`) }).click()
    const bench = page.getByRole('region', { name: `Start soak: ${set}` })
    await bench.getByText('lumen 2.5 mm × 330 mm: brush and flush').waitFor()
    // Only a set that comes from a case was carried there soiled.
    const kept = bench.getByRole('radio', { name: 'In foam' })
    if (await kept.isVisible()) await kept.check()
    await bench.getByRole('spinbutton', { name: 'Water, °C' }).fill('28')
    await bench.getByRole('button', { name: 'Start soak' }).click()
    await page.getByRole('region', { name: 'Soaking' }).getByRole('link', { name: set, exact: true }).waitFor()
  }
}

/** One run of the washer, its A0 computed from its log. */
export async function washAll(page: Page): Promise<void> {
  const run = washerRun(diceOf(3)('wash'))
  await nextThing(page).getByRole('link', { name: 'Record wash' }).click()
  const form = page.getByRole('form', { name: 'Record wash' })
  for (const set of unit.sets) await form.getByRole('checkbox', { name: set }).check()
  await form.getByRole('checkbox', { name: 'Taken apart' }).check()
  const file = { name: 'washer.csv', mimeType: 'text/csv', buffer: Buffer.from(run.text) }
  await form.getByLabel('Washer log').setInputFiles(file)
  await form
    .getByText(`A0 ${provenA0(run.text)} s`)
    .first()
    .waitFor()
  await form.getByRole('button', { name: 'Record wash' }).click()
  await page.getByRole('region', { name: 'Washed, to be inspected' }).waitFor()
}

/** The log names no stages, so what follows the disinfection could be drying, and does not count. */
function provenA0(log: string): number {
  const samples = log
    .split('\n')
    .map((row) => row.split(',').map(Number))
    .flatMap(([seconds = Number.NaN, temperatureC = Number.NaN]) =>
      Number.isNaN(seconds + temperatureC) ? [] : [{ seconds, temperatureC }],
    )
  const hot = samples.filter(({ temperatureC }) => temperatureC >= 90).map(({ seconds }) => seconds)
  return Math.round(a0Seconds(samples.filter(({ seconds }) => seconds <= Math.max(...hot))))
}

export async function inspectAll(page: Page): Promise<void> {
  for (const set of unit.sets) {
    await page.getByRole('link', { name: new RegExp(`^Inspect ?: ${set}`) }).click()
    const form = page.getByRole('form', { name: 'Record inspection' })
    await form.getByRole('radio', { name: 'Clean', exact: true }).check()
    await form.getByRole('radio', { name: 'Works' }).check()
    await form.getByRole('radio', { name: 'Not insulated' }).check()
    await form.getByRole('checkbox', { name: 'Seen under magnification' }).check()
    await form.getByRole('checkbox', { name: 'Dry' }).check()
    await form.getByRole('button', { name: 'Record inspection' }).click()
    await page.getByRole('link', { name: new RegExp(`^Inspect ?: ${set}`) }).waitFor({ state: 'detached' })
  }
  await nextThing(page).getByRole('link', { name: 'Go to packing' }).waitFor()
}

/** Counts and seals each set; gives the keys on the labels. */
export async function packAll(page: Page, clock: UnitClock): Promise<readonly string[]> {
  const keys: string[] = []
  for (const set of unit.sets) {
    await goTo(page, 'Packing')
    await page.getByRole('link', { name: new RegExp(`^Pack ?: ${set}`) }).click()
    const form = page.getByRole('form', { name: 'Seal pack' })
    await form.getByText('4 missing').waitFor()
    await form.getByRole('textbox', { name: 'Lot of the inside indicator' }).fill('CI-21')
    await form.getByRole('textbox', { name: 'Lot of the outside indicator' }).fill('T-5')
    await form.getByText('The rules stand against this:').waitFor()
    await form.getByRole('button', { name: 'All as on the sheet' }).click()
    await form.getByText('No rule stands against this.').waitFor()
    await form.getByRole('button', { name: 'Seal pack' }).click()
    const label = (await page.getByRole('region', { name: 'Label' }).textContent()) ?? ''
    const key = /laparoscopy-basic-\d-\d{6}-\d{4}-\d{2}/.exec(label)?.[0]
    assert.ok(key, `the label shows the key of the pack: ${label}`)
    keys.push(key)
    await clock.passes(5, page)
  }
  return keys
}
