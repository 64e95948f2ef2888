import type { Locator, Page } from 'playwright-core'
import { nextThing, until } from '../../support/screen.ts'

/** The people, devices, sets and machines of an invented small unit, registered by its forms. */
export const unit = {
  name: 'Harbour Road',
  manager: 'Nora Castellanos',
  technician: 'Sam Idris',
  surgeon: 'Vera Lindt',
  device: 'Grasper, 5 mm',
  sets: ['Laparoscopy basic 1', 'Laparoscopy basic 2'],
  steriliser: 'Steriliser North',
  washer: 'Washer 1',
} as const

/** The first start, for a unit that begins with nothing. */
export async function openOwnUnit(page: Page): Promise<void> {
  const form = page.getByRole('form', { name: 'Set up my unit' })
  await form.getByRole('textbox', { name: 'Name of the unit' }).fill(unit.name)
  await form.getByRole('combobox', { name: 'Time zone' }).selectOption('UTC')
  await form.getByRole('textbox', { name: 'Manager’s name' }).fill(unit.manager)
  await form.getByRole('button', { name: 'Set up my unit' }).click()
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor()
}

/** Follows what the home screen says comes next, until the first set can go round. */
export async function registerEverything(page: Page): Promise<void> {
  for (const [name, ...roles] of [
    [unit.technician, 'Reprocessing'],
    [unit.surgeon, 'Surgeon in charge', 'Theatre'],
  ] as const) {
    await register(page, 'Register a person', name, async (form) => {
      for (const role of roles) await form.getByRole('checkbox', { name: role }).check()
    })
  }
  await home(page)
  await register(page, 'Register a device', unit.device, async (form) => {
    await form.getByRole('radio', { name: 'Critical: enters tissue', exact: true }).check()
    await form.getByRole('radio', { name: 'Allows steam' }).check()
    await form.getByRole('button', { name: 'Add a lumen' }).click()
    await form.getByRole('spinbutton', { name: 'Inner diameter, mm' }).fill('2.5')
    await form.getByRole('spinbutton', { name: 'Length, mm' }).fill('330')
    await form.getByRole('spinbutton', { name: 'Parts when taken apart' }).fill('3')
  })
  await home(page)
  for (const set of unit.sets) {
    await register(page, 'Register a set', set, async (form) => {
      await form.getByRole('combobox', { name: 'Device' }).selectOption({ label: unit.device })
      await form.getByRole('spinbutton', { name: 'How many' }).fill('4')
    })
  }
  await home(page)
  await register(page, 'Register a machine', unit.steriliser, async (form) => {
    await form.getByRole('spinbutton', { name: 'Chamber, litres' }).fill('250')
    await form.getByRole('textbox', { name: 'Programs' }).fill('porous-134')
  })
  await register(page, 'Register a machine', unit.washer, async (form) => {
    await form.getByRole('radio', { name: 'Washer', exact: true }).check()
    await form.getByRole('spinbutton', { name: 'Chamber, litres' }).fill('180')
    await form.getByRole('textbox', { name: 'Programs' }).fill('instruments')
  })
  await home(page)
  await nextThing(page).getByText('All is there.').waitFor()
}

async function home(page: Page): Promise<void> {
  await page.getByRole('main').getByRole('link', { name: 'Round', exact: true }).click()
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor()
}

/** By the button of what comes next, or on the form that stands there already. */
async function register(page: Page, what: string, name: string, fill: (form: Locator) => Promise<void>): Promise<void> {
  const form = page.getByRole('form', { name: what })
  if (!(await form.isVisible())) await nextThing(page).getByRole('link', { name: what }).click()
  await form.getByRole('textbox', { name: 'Name' }).fill(name)
  await fill(form)
  await form.getByRole('button', { name: what }).click()
  // "Recorded." may be said of the one before; the form is emptied when its own entry is kept.
  await until(
    'the form is empty for the next one',
    () => form.getByRole('textbox', { name: 'Name' }).inputValue(),
    (typed) => typed === '',
  )
  await page.getByRole('status').getByText('Recorded.').first().waitFor()
}
