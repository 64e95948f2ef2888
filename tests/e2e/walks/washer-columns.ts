import assert from 'node:assert/strict'
import type { Page } from 'playwright-core'
import { dropFile } from '../../support/steam-log-file.ts'
import { twoSensorWash } from './day-logs.ts'

/** A log whose columns are letters is read as a person says; kept for the washer, the next one is read so at once; its picture is told in words. */
export async function columnsAreKept(page: Page, log: ReturnType<typeof twoSensorWash>): Promise<void> {
  const form = page.getByRole('form', { name: 'Record wash' })
  const lettered = ({ text, ...file }: typeof log) => ({ ...file, text: text.replace(/^.*/, 'A,B,C,D') })
  await dropFile(form.getByLabel('Washer log'), lettered(log))
  await form.getByText('Say which column is the time and which are temperatures').waitFor()
  const sensors = form.getByRole('group', { name: 'Temperature sensors that count: the coldest decides' })
  for (const column of ['B', 'C']) {
    // oxlint-disable-next-line no-await-in-loop
    await sensors.getByRole('checkbox', { name: column, exact: true }).check()
  }
  // Nobody has said yet which words are the stages, so where the drying begins cannot be told.
  await form.getByText('A0 not evaluable from this log').waitFor()
  await form.getByRole('combobox', { name: /^Stages of the machine/ }).selectOption('D')
  await form.getByText(`A0 ${log.a0} s`).first().waitFor()
  await form.getByRole('button', { name: 'Keep this map for the machine' }).click()
  await form.getByText('The map is kept for the machine.').waitFor()
  const warmer = twoSensorWash(91)
  await dropFile(form.getByLabel('Washer log'), lettered(warmer))
  await form.getByText(`A0 ${warmer.a0} s`).first().waitFor()
  assert.equal(await form.getByRole('button', { name: 'Keep this map for the machine' }).count(), 0)
  await dropFile(form.getByLabel('Washer log'), log)
  await form.getByText(', coldest sensor: lower rack °C').waitFor()
  const a0 = log.a0.toLocaleString('en')
  const told = `coldest sensor, lower rack °C: ${a0} s, wanted at least 600 s. Counted up to 14.8 min`
  await form.getByRole('img', { name: told }).waitFor()
}
