import type { Page } from 'playwright-core'
import { goTo, nextThing } from '../../support/screen.ts'
import { unit } from './own-unit.ts'

export const procedure = 'Laparoscopic cholecystectomy'

export async function store(page: Page, set: string): Promise<void> {
  await goTo(page, 'Shelf')
  await nextThing(page).getByText('1 released pack is to be put on the shelf.').waitFor()
  const form = page.getByRole('form', { name: `Put on shelf: ${set}` })
  await form.getByRole('combobox', { name: `Place: ${set}` }).fill('Store 1, shelf 2')
  await form.getByRole('button', { name: /^Put on shelf/ }).click()
  const row = page.getByRole('table', { name: 'Sterile stock' }).getByRole('row', { name: new RegExp(set) })
  await row.getByRole('cell', { name: 'Store 1, shelf 2' }).waitFor()
}

export async function bookCase(page: Page): Promise<void> {
  await goTo(page, 'Theatre')
  await nextThing(page).getByRole('link', { name: 'Book a case' }).click()
  const form = page.getByRole('form', { name: 'Book case' })
  await form.getByRole('textbox', { name: 'Procedure' }).fill(procedure)
  await form.getByRole('textbox', { name: 'Patient (pseudonym)' }).fill('P-0001')
  await form.getByRole('textbox', { name: 'Theatre' }).fill('Theatre 1')
  await form.getByRole('combobox', { name: 'Surgeon' }).selectOption({ label: unit.surgeon })
  await form.getByRole('button', { name: 'Book case' }).click()
  await page.getByRole('heading', { level: 1, name: procedure }).waitFor()
}

/** A scanner types the key of the pack and ends with Enter; no field is chosen before. */
export async function openByScanner(page: Page, pack: string, set: string): Promise<void> {
  await page.getByRole('textbox', { name: 'Pack', exact: true }).and(page.locator(':focus')).waitFor()
  await page.keyboard.type(pack)
  await page.keyboard.press('Enter')
  const hand = page.getByRole('form', { name: `In hand: ${set}` })
  await hand.getByRole('button', { name: 'Open this pack for the case' }).click()
  await page
    .getByRole('region', { name: 'Packs opened for this case' })
    .getByRole('link', { name: set, exact: true })
    .waitFor()
}

export async function recordCase(page: Page): Promise<void> {
  const form = page.getByRole('form', { name: 'Record case' })
  await form.getByRole('radio', { name: 'I clean', exact: true }).check()
  await form
    .getByRole('textbox', { name: /^Antibiotic/ })
    .first()
    .fill('Cefazolin 2 g')
  await form.getByRole('button', { name: 'Record case' }).click()
  await page.getByRole('heading', { name: /^Recorded/ }).waitFor()
}

export async function endUse(page: Page, set: string): Promise<void> {
  await page.getByRole('button', { name: `End use: ${set}` }).click()
  await page.getByRole('link', { name: 'handed to the wash room' }).waitFor()
}

export async function noteWound(page: Page): Promise<void> {
  await goTo(page, 'Wounds')
  await nextThing(page).getByRole('link', { name: 'Note a wound' }).click()
  const choice = page.getByRole('combobox', { name: 'Case' })
  await choice.selectOption({ index: 1 })
  const form = page.getByRole('form', { name: 'Record wound' })
  await form.getByRole('radio', { name: 'Deep', exact: true }).check()
  await form.getByRole('textbox', { name: 'Signs' }).fill('Hard lump at the navel, no fever')
  await form.getByRole('button', { name: 'Record wound' }).click()
  // Its own page comes first, where it is judged; the trace is one step on.
  await page.getByRole('heading', { level: 1, name: 'Wound', exact: true }).waitFor()
  await page.getByText('Not judged yet: it counts in no rate.').waitFor()
  await page.getByRole('link', { name: 'Trace back' }).click()
  await page.getByRole('heading', { level: 1, name: /^Trace of Wound/ }).waitFor()
}
