import type { Locator, Page } from 'playwright-core'
import { starterDevices } from '#road/catalogue/starter.ts'
import { goTo, nextThing } from '../../support/screen.ts'
import type { Hands } from './hands.ts'

const set = 'Laparoscopy basic'
const copies = starterDevices.slice(0, 5).map((device) => device.name)
const csv =
  'key,name,contact,makerMethods,lumens,partNames,insulated,heatStable134,immersible\n' +
  'hook-1,"Hook electrode, 5 mm",critical,steam;ethyleneOxide,,,yes,yes,yes\n' +
  'grasper-1,Grasper 5 mm,critical,steam,2.8x330x2,Handle;Sheath;Insert,yes,yes,yes\n'

/** From the first start to the first set washed, as the guide on the Unit page leads. */
export async function setUpEmptyUnit(hands: Hands): Promise<void> {
  const { page } = hands
  await hands.part('the unit', () => openUnit(hands))
  await goTo(page, 'Unit')
  await hands.part('two people', () => people(hands))
  await hands.part('five devices from the starter', () => devices(hands))
  await hands.part('devices from a spreadsheet', () => spreadsheet(hands))
  await hands.part('a set', () => oneSet(hands))
  await hands.part('two machines', () => machines(hands))
  await hands.part('an outlet', () => outlet(hands))
  await hands.part('a bath', () => bath(hands))
  await hands.part('first round, soaked and washed', () => firstWash(hands))
}

async function openUnit(hands: Hands): Promise<void> {
  const form = hands.page.getByRole('form', { name: 'Set up my unit' })
  await hands.type(form.getByRole('textbox', { name: 'Name of the unit' }), 'Harbour Road')
  await hands.type(form.getByRole('textbox', { name: 'Manager’s name' }), 'Nora Castellanos')
  await hands.press(form.getByRole('button', { name: 'Set up my unit' }))
  await hands.page.getByRole('heading', { level: 1, name: 'Round' }).waitFor()
  const who = hands.page.getByRole('button', { name: 'Who is working?' })
  await hands.press(who)
  await hands.press(hands.page.getByRole('dialog').getByRole('button', { name: 'Nora Castellanos' }))
}

/** Each step of the guide leads to its form. */
async function byGuide(hands: Hands, step: string): Promise<void> {
  await goTo(hands.page, 'Unit')
  hands.counted.clicks += 1
  const guide = hands.page.getByRole('region', { name: 'Before the first set goes round' })
  await hands.press(guide.getByRole('link', { name: step, exact: true }).last())
}

async function kept(page: Page, form: Locator, button: string, hands: Hands): Promise<void> {
  await hands.press(form.getByRole('button', { name: button, exact: true }))
  await page.getByRole('status').getByText('Recorded.').first().waitFor()
}

async function people(hands: Hands): Promise<void> {
  await byGuide(hands, 'Register the people who work here')
  for (const [name, role] of [
    ['Sam Idris', 'Reprocessing'],
    ['Vera Lindt', 'Surgeon in charge'],
  ] as const) {
    const form = hands.page.getByRole('form', { name: 'Register a person' })
    await hands.type(form.getByRole('textbox', { name: 'Name' }), name)
    await hands.tick(form.getByRole('checkbox', { name: role }))
    await kept(hands.page, form, 'Register a person', hands)
    await empty(form)
  }
}

async function empty(form: Locator): Promise<void> {
  const name = form.getByRole('textbox', { name: 'Name', exact: true })
  await name.and(form.page().locator(':placeholder-shown, [value=""]')).waitFor()
}

async function devices(hands: Hands): Promise<void> {
  await byGuide(hands, 'Register each kind of device')
  const starter = hands.page.getByRole('region', { name: 'Begin with a generic device' })
  for (const name of copies) {
    const form = hands.page.getByRole('form', { name: 'Register a device' })
    await hands.select(starter.getByRole('combobox'), { label: name })
    await hands.press(starter.getByRole('button'))
    await hands.tick(form.getByRole('checkbox', { name: /maker’s list is on file/i }))
    await hands.tick(form.getByRole('checkbox', { name: 'Steam', exact: true }))
    await kept(hands.page, form, 'Register a device', hands)
    await empty(form)
  }
}

async function spreadsheet(hands: Hands): Promise<void> {
  const { page } = hands
  await hands.press(page.getByText('Take devices from a spreadsheet'))
  await hands.file(page.getByLabel('CSV file'), {
    name: 'devices.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(csv),
  })
  await hands.press(page.getByRole('button', { name: 'Register 2 devices' }))
  await page.getByText('2 recorded.').waitFor()
}

async function oneSet(hands: Hands): Promise<void> {
  await byGuide(hands, 'Register the sets with their count sheets')
  const form = hands.page.getByRole('form', { name: 'Register a set' })
  await hands.type(form.getByRole('textbox', { name: 'Name' }), set)
  for (const [place, name] of copies.entries()) {
    if (place > 0) await hands.press(form.getByRole('button', { name: 'Add a line' }))
    await hands.select(form.getByRole('combobox', { name: 'Device' }).nth(place), { label: name })
    await hands.type(form.getByRole('spinbutton', { name: 'How many' }).nth(place), '2')
  }
  await kept(hands.page, form, 'Register a set', hands)
}

async function machines(hands: Hands): Promise<void> {
  for (const [step, name, litres, programs] of [
    ['Register the steriliser', 'Steriliser North', '250', 'porous-134'],
    ['Register the washer', 'Washer 1', '180', 'instruments'],
  ] as const) {
    await byGuide(hands, step)
    const form = hands.page.getByRole('form', { name: 'Register a machine' })
    await hands.type(form.getByRole('textbox', { name: 'Name' }), name)
    await hands.type(form.getByRole('spinbutton', { name: 'Chamber, litres' }), litres)
    await hands.type(form.getByRole('textbox', { name: 'Programs' }), programs)
    await kept(hands.page, form, 'Register a machine', hands)
  }
}

async function outlet(hands: Hands): Promise<void> {
  await byGuide(hands, 'Register the water outlets')
  const form = hands.page.getByRole('region', { name: /outlet/i }).getByRole('form')
  await hands.type(form.getByRole('textbox', { name: 'Name' }), 'Sink 1')
  await hands.press(form.getByRole('button').last())
  await hands.page.getByRole('listitem').filter({ hasText: 'Sink 1' }).first().waitFor()
}

async function bath(hands: Hands): Promise<void> {
  await byGuide(hands, 'Pour the bath')
  await hands.press(hands.page.getByText('Pour a bath', { exact: true }).first())
  const form = hands.page.getByRole('form', { name: 'Pour a bath' })
  await hands.select(form.getByRole('combobox').first(), 'ortho-phthalaldehyde-0.55')
  await hands.type(form.getByRole('textbox', { name: /lot/i }), 'OPA-77')
  await hands.type(form.locator('input[type=date]').first(), '2030-01-01')
  await hands.type(form.getByRole('textbox', { name: 'Where it stands' }), 'Sluice')
  await hands.type(form.getByRole('spinbutton').first(), '8')
  await hands.press(form.getByRole('button', { name: 'Pour a bath' }))
  await hands.page.getByRole('region', { name: 'Baths in use' }).getByRole('listitem').first().waitFor()
}

async function firstWash(hands: Hands): Promise<void> {
  const { page } = hands
  await goTo(page, 'Unit')
  hands.counted.clicks += 1
  await hands.press(nextThing(page).getByRole('link', { name: 'Go to the wash room' }))
  await hands.press(page.getByText(set, { exact: true }).first())
  await hands.press(page.getByRole('button', { name: `Start its first round: ${set}` }))
  await hands.press(page.getByRole('link', { name: new RegExp(`^Start soak ?: ${set}`) }))
  const bench = page.getByRole('region', { name: `Start soak: ${set}` })
  await hands.type(bench.getByRole('spinbutton', { name: 'Water, °C' }), '28')
  await hands.press(bench.getByRole('button', { name: 'Start soak' }))
  await hands.press(nextThing(page).getByRole('link', { name: 'Record wash' }))
  const form = page.getByRole('form', { name: 'Record wash' })
  await hands.tick(form.getByRole('checkbox', { name: set }))
  await hands.tick(form.getByRole('checkbox', { name: 'Taken apart' }))
  await hands.press(form.getByRole('button', { name: 'Record wash' }))
  await page.getByRole('region', { name: 'Washed, to be inspected' }).waitFor()
}
