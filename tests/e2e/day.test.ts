import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import type { KnownRow } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { goTo, noTroubles, openScreen, type Screen, until, workAs } from '../support/screen.ts'
import { dropFile, steamLogFile } from '../support/steam-log-file.ts'
import { UnitClock } from '../support/unit-clock.ts'
import { gasLog, twoSensorWash } from './walks/day-logs.ts'
import { dayUnit, furnishDay } from './walks/day-unit.ts'
import { decision, readChemical, releaseIsRefused, verdict } from './walks/load.ts'
import { columnsAreKept } from './walks/washer-columns.ts'

/* A day and the morning after on two screens, the theatre's and the wash room's; each test goes on where the one before ended. */

const clock = new UnitClock('2026-03-02T07:00:00.000Z')
const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-day-'))
let browser: Browser
let service: RunningService
let theatre: Screen
let wash: Screen
let gasLoad = ''

before(async () => {
  browser = await openBrowser()
  service = await runService({ screens: builtScreens, now: clock.now, folder })
  await furnishDay(service, clock)
  theatre = await openScreen(browser, service.url, { at: clock.milliseconds() })
  wash = await openScreen(browser, service.url, { at: clock.milliseconds() })
  await workAs(theatre.page, dayUnit.nurse)
  await workAs(wash.page, dayUnit.technician)
})

after(async () => {
  await browser.close()
  await service.close()
  rmSync(folder, { recursive: true, force: true })
})

/** A walk that has come to a halt is not walked on. */
let halted = false
function step(name: string, walk: (theatre: Page, wash: Page) => Promise<void>): void {
  test(name, async (t) => {
    if (halted) return t.skip('the walk ended before')
    halted = true
    await walk(theatre.page, wash.page)
    halted = false
  })
}

const passes = (minutes: number): Promise<void> => clock.passes(minutes, theatre.page, wash.page)

async function standingOf(subject: `${'round' | 'load' | 'case'}:${string}`): Promise<string> {
  const { body } = await service.ask('GET', `/api/known/${subject}`)
  return (body as KnownRow).standing
}

/** The alarm of a clock that ended stands on both screens; each takes note of it for itself. */
async function alarmsOnBoth(says: string): Promise<void> {
  for (const { page } of [theatre, wash]) {
    const alarm = page.getByRole('region', { name: 'Clocks that have ended' }).getByRole('alert')
    /* oxlint-disable no-await-in-loop: one screen after the other */
    await alarm.getByText(says).waitFor()
    await alarm.filter({ hasText: says }).getByRole('button', { name: 'Acknowledge' }).click()
    /* oxlint-enable no-await-in-loop */
  }
}

/** What is left on a clock, in minutes, as the screen says it. */
async function minutesLeft(page: Page): Promise<number> {
  const text = (await page.getByRole('timer', { name: 'Time left' }).first().textContent()) ?? ''
  const [, hours = '0', minutes = '', seconds = ''] = /^(?:(\d+):)?(\d\d):(\d\d)/.exec(text) ?? []
  assert.notEqual(minutes, '', `a clock runs: ${text}`)
  return Number(hours) * 60 + Number(minutes) + Number(seconds) / 60
}

function near(actual: number, expected: number, within = 1): void {
  assert.ok(Math.abs(actual - expected) <= within, `${actual} min left, wanted ${expected}`)
}

step('a bath is poured, its strips are proven, and the contact clock alarms on both screens', async (_, page) => {
  await goTo(page, 'Machines')
  await page.getByRole('main').getByRole('link', { name: 'Baths' }).click()
  await page.getByText('Pour a bath', { exact: true }).first().click()
  const pour = page.getByRole('form', { name: 'Pour a bath' })
  await pour.getByRole('combobox', { name: 'What is in it' }).selectOption('ortho-phthalaldehyde-0.55')
  await pour.getByRole('textbox', { name: 'Container, by its lot number' }).fill('OPA-9')
  await pour.getByLabel('Expiry on the container').fill('2027-01-01')
  await pour.getByRole('textbox', { name: 'Where it stands' }).fill('Wash room')
  await pour.getByRole('spinbutton', { name: 'Litres' }).fill('20')
  await pour.getByRole('button', { name: 'Pour a bath' }).click()
  await page.getByText('Open a bottle of strips', { exact: true }).first().click()
  const bottle = page.getByRole('form', { name: 'Open a bottle of strips' })
  await bottle.getByRole('combobox', { name: 'What is in it' }).selectOption('ortho-phthalaldehyde-0.55')
  await bottle.getByRole('textbox', { name: 'Lot number' }).fill('STRIP-4')
  await bottle.getByLabel('Expiry on the container').fill('2026-12-31')
  await bottle.getByRole('spinbutton', { name: /full strength/ }).fill('3')
  await bottle.getByRole('spinbutton', { name: /half strength/ }).fill('3')
  await bottle.getByRole('button', { name: 'Open a bottle of strips' }).click()
  await bottle.getByText('Recorded.').waitFor()
  assert.equal(await bottle.getByRole('textbox', { name: 'Lot number' }).inputValue(), '', 'empty for the next')

  await page.getByRole('region', { name: 'Baths in use' }).getByRole('link').click()
  const strip = page.getByRole('form', { name: 'Record the strip' })
  await strip.getByRole('combobox', { name: 'Bottle of strips' }).selectOption({ label: 'STRIP-4' })
  await strip.getByRole('radio', { name: 'Passed' }).check()
  await strip.getByRole('spinbutton', { name: /seconds/ }).fill('90')
  await strip.getByRole('button', { name: 'Record the strip' }).click()
  const warm = page.getByRole('form', { name: 'Record the temperature' })
  await warm.getByRole('spinbutton', { name: 'Bath, °C' }).fill('21')
  await warm.getByRole('button', { name: 'Record the temperature' }).click()
  await page
    .getByText(/^.*21 °C, /)
    .first()
    .waitFor()

  const immerse = page.getByRole('form', { name: 'Immerse' })
  await immerse.getByRole('checkbox', { name: dayUnit.scope }).check()
  for (const seen of ['Cleaned and dried beforehand', 'All of it is under the surface', /^Every lumen is filled/]) {
    // oxlint-disable-next-line no-await-in-loop
    await immerse.getByRole('checkbox', { name: seen }).check()
  }
  await immerse.getByText('No rule stands against this.').waitFor()
  await immerse.getByRole('button', { name: 'Immerse' }).click()
  // 12 min for ortho-phthalaldehyde 0.55 % at 20 °C (CDC 2008, Table 4).
  near(await minutesLeft(page), 12)
  await passes(13)
  await alarmsOnBoth('Contact time over: take it out and rinse.')
})

step('three rinses are counted with their water, and the set goes to the case at once', async (_, page) => {
  await page.getByRole('button', { name: 'Taken out' }).click()
  const rinse = page.getByRole('form', { name: 'Record a rinse' })
  await rinse.getByRole('radio', { name: 'Sterile', exact: true }).check()
  await rinse.getByRole('combobox', { name: 'Outlet' }).fill('Sink 2')
  for (const done of [1, 2, 3]) {
    /* oxlint-disable no-await-in-loop: one rinse after the other */
    await rinse.getByRole('button', { name: 'Record a rinse' }).click()
    await page.getByText(`Rinse ${done} of 3`).waitFor()
    await passes(1)
    /* oxlint-enable no-await-in-loop */
  }
  const decide = page.getByRole('form', { name: 'Decide' })
  await decide.getByRole('radio', { name: 'Ready for use at once' }).check()
  await decide.getByText('No rule stands against this.').waitFor()
  await decide.getByRole('button', { name: 'Decide' }).click()
  await until(
    'the set is ready',
    () => standingOf('round:scope-1'),
    (standing) => standing === 'bathReady',
  )
  await goTo(page, 'Shelf')
  assert.equal(await page.getByRole('form', { name: `Put on shelf: ${dayUnit.scope}` }).count(), 0, 'no shelf for it')
  await goTo(page, 'Machines')
  await page.getByRole('main').getByRole('link', { name: 'Baths' }).click()
  const ready = page.getByRole('region', { name: 'Ready for use at once' })
  await ready.getByRole('combobox', { name: 'Case' }).selectOption({ index: 1 })
  await ready.getByText('No rule stands against this.').waitFor()
  await ready.getByRole('button', { name: 'Used in this case' }).click()
  await ready.waitFor({ state: 'detached' })
})

step(
  'the case ends: the wash room sees the soak clock at once, and a late soak alarms on both',
  async (nurse, page) => {
    await goTo(page, 'Wash room')
    await goTo(nurse, 'Theatre')
    await nurse.getByRole('main').getByRole('link', { name: dayUnit.procedure }).click()
    await noteMycobacteria(nurse)
    await nurse.getByRole('button', { name: `End use: ${dayUnit.scope}` }).click()
    await nurse.getByRole('link', { name: 'handed to the wash room' }).waitFor()
    near(await minutesLeft(nurse), 20)
    // The wash room says the wait once, with what is left of its limits.
    const wait = page.getByRole('listitem').filter({ hasText: dayUnit.scope }).getByRole('timer')
    await wait.getByText(/^In time: (?:19|20) min left/).waitFor()
    assert.equal(await wait.count(), 1)
    await passes(21)
    await alarmsOnBoth('Waiting for its soak: start it now.')
  },
)

step('the service is away for a while: the clocks go on, and the screens follow again', async (nurse, page) => {
  noTroubles(theatre)
  noTroubles(wash)
  assert.deepEqual(service.log, [])
  const { port } = new URL(service.url)
  await service.close()
  await passes(340)
  await alarmsOnBoth('Far too late for its soak: soil has dried.')
  service = await runService({ screens: builtScreens, now: clock.now, folder, environment: { PORT: port } })
  await Promise.all([nurse.reload(), page.reload()])
  for (const screen of [nurse, page]) {
    const alarms = screen.getByRole('region', { name: 'Clocks that have ended' })
    // oxlint-disable-next-line no-await-in-loop
    await alarms.getByText('Far too late for its soak: soil has dried.').waitFor()
  }
  await page.getByRole('link', { name: `Start soak: ${dayUnit.scope}` }).click()
  const patient = page.getByRole('region', { name: 'The patient that this set comes from' })
  await patient.getByText('Suspected', { exact: true }).waitFor()
  await page.getByRole('radio', { name: 'Dry', exact: true }).check()
  await page.getByRole('button', { name: 'Start soak' }).click()
  await page.getByRole('region', { name: 'Soaking' }).getByRole('link', { name: dayUnit.scope, exact: true }).waitFor()
  for (const screen of [nurse, page]) {
    // oxlint-disable-next-line no-await-in-loop
    await screen.getByRole('region', { name: 'Clocks that have ended' }).waitFor({ state: 'detached' })
  }
})

step('the washer log is dropped: A0 of the coldest sensor, drying left out; inspected and packed', async (_, page) => {
  await passes(15)
  await page.getByRole('link', { name: `Record wash: ${dayUnit.scope}` }).click()
  const form = page.getByRole('form', { name: 'Record wash' })
  await form.getByRole('checkbox', { name: 'Taken apart' }).check()
  const log = twoSensorWash()
  assert.ok(log.a0 > 2900 && log.a0 < 3200, `five minutes at 90 °C are about 3000 s: ${log.a0}`)
  await dropFile(form.getByLabel('Washer log'), log)
  await form.getByText(`A0 ${log.a0} s`).first().waitFor()
  await columnsAreKept(page, log)
  await form.getByRole('button', { name: 'Record wash' }).click()
  await passes(40)
  await page.getByRole('link', { name: `Inspect: ${dayUnit.scope}` }).click()
  const inspect = page.getByRole('form', { name: 'Record inspection' })
  await inspect.getByRole('radio', { name: 'Clean', exact: true }).check()
  await inspect.getByRole('radio', { name: 'Works' }).check()
  await inspect.getByRole('radio', { name: 'Not insulated' }).check()
  await inspect.getByRole('checkbox', { name: 'Seen under magnification' }).check()
  await inspect.getByRole('checkbox', { name: 'Dry' }).check()
  await inspect.getByRole('button', { name: 'Record inspection' }).click()
  await goTo(page, 'Packing')
  await page.getByRole('link', { name: `Pack: ${dayUnit.scope}` }).click()
  const seal = page.getByRole('form', { name: 'Seal pack' })
  await seal.getByRole('radio', { name: 'Pouch', exact: true }).check()
  await seal.getByRole('combobox', { name: /made of/i }).selectOption({ label: 'Synthetic, no cellulose' })
  await seal.getByRole('textbox', { name: 'Lot of the inside indicator' }).fill('CI-2')
  await seal.getByRole('textbox', { name: 'Lot of the outside indicator' }).fill('T-2')
  await seal.getByRole('button', { name: 'All as on the sheet' }).click()
  await seal.getByText('No rule stands against this.').waitFor()
  await seal.getByRole('button', { name: 'Seal pack' }).click()
  await page.getByRole('region', { name: 'Label' }).waitFor()
})

step(
  'a gas load aerates from the evening: at 22:00 it is held, and its clock stands after a reload',
  async (nurse, page) => {
    gasLoad = await buildLoad(page, dayUnit.gas, dayUnit.scope, 'BA-1')
    const startedAt = clock.now().slice(0, 16)
    await passes(165)
    await dropCycle(page, gasLog(), startedAt)
    await verdict(page).getByText('Met', { exact: true }).first().waitFor()
    await readChemical(page, 'Outside the packs')
    const aeration = page.getByRole('form', { name: 'Start the aeration' })
    await aeration.getByRole('spinbutton', { name: 'Temperature of the aerator, °C' }).fill('50')
    await aeration.getByRole('button', { name: 'Start the aeration' }).click()
    // 12 h at 50 °C (CDC 2008, Table 1).
    near(await minutesLeft(page), 12 * 60)
    const began = clock.milliseconds()
    await passes((Date.parse('2026-03-02T22:00:00.000Z') - clock.milliseconds()) / 60_000)
    const left = 12 * 60 - (clock.milliseconds() - began) / 60_000
    await nurse.goto(`/loads/${gasLoad}`)
    for (const screen of [nurse, page]) {
      /* oxlint-disable no-await-in-loop: one screen after the other */
      near(await minutesLeft(screen), left)
      await screen.reload()
      near(await minutesLeft(screen), left)
      /* oxlint-enable no-await-in-loop */
    }
    await releaseIsRefused(page, /aerat/i)
  },
)

step(
  'the aeration is cut short: its clock ends everywhere, the load stays held, and it begins anew',
  async (nurse, page) => {
    const strip = (screen: Page) => screen.getByRole('list', { name: 'Clocks that run' })
    await nurse.goto('/')
    for (const screen of [nurse, page])
      // oxlint-disable-next-line no-await-in-loop
      await strip(screen).getByText(`Aeration ${gasLoad}, 50 °C`).waitFor()
    await page.getByText('Aeration cancelled or interrupted', { exact: true }).first().click()
    const form = page.getByRole('form', { name: 'Record that the aeration stopped' })
    await form.getByRole('combobox', { name: 'Cause' }).selectOption({ label: 'Power failed' })
    await form
      .getByText(/does not count/)
      .first()
      .waitFor()
    await form.getByRole('button', { name: 'Record that the aeration stopped' }).click()
    await page.getByText(/^The aeration was interrupted at .* \(Power failed\)/).waitFor()
    for (const screen of [nurse, page])
      // oxlint-disable-next-line no-await-in-loop
      await strip(screen).waitFor({ state: 'detached' })
    assert.equal(await standingOf(`load:${gasLoad}`), 'aerationStopped')
    await releaseIsRefused(page, /none of its time counts/)
    const again = page.getByRole('form', { name: 'Start the aeration' })
    await again.getByRole('spinbutton', { name: 'Temperature of the aerator, °C' }).fill('55')
    await again
      .getByText(/Worked out between the listed pairs, as advice only/)
      .first()
      .waitFor()
    await again.getByRole('button', { name: 'Start the aeration' }).click()
    near(await minutesLeft(page), 12 * 60)
    await strip(nurse)
      .getByText(/Worked out between listed pairs: 9\.8 h, .* Advice only/)
      .waitFor()
    await nurse.reload()
    await strip(nurse).getByText(`Aeration ${gasLoad}, 55 °C`).waitFor()
  },
)

step('an implant waits for its biological indicator: refused before, released after', async (_, page) => {
  const load = await buildLoad(page, dayUnit.steam, dayUnit.mesh, 'GS-1')
  const startedAt = clock.now().slice(0, 16)
  const log = steamLogFile('cycle-0001.csv', 230)
  await passes(log.minutes + 5)
  await dropCycle(page, log, startedAt)
  await verdict(page).getByText('Met', { exact: true }).first().waitFor()
  await readChemical(page, 'Outside the packs')
  await releaseIsRefused(page, /implant/i)
  await passes(24 * 60)
  await page.goto(`/loads/${load}`)
  await readBiological(page, 24)
  await release(page)
  assert.equal(await standingOf('round:mesh-1'), 'released')
})

step('next morning the aeration has ended, the indicator is read, and the gas load is released', async (_, page) => {
  await page.goto(`/loads/${gasLoad}`)
  await alarmsOnBoth('The aeration is done')
  await page.getByRole('button', { name: 'End the aeration' }).click()
  await page.getByText(/^Aerated for/).waitFor()
  await releaseIsRefused(page, /biological/i)
  await passes(24 * 60)
  await readBiological(page, 48)
  await release(page)
  assert.equal(await standingOf(`load:${gasLoad}`), 'released')
})

/** What the patient turned out to have is noted while the case is going on; what is not known is said to be so. */
async function noteMycobacteria(page: Page): Promise<void> {
  await page.getByText('Note these facts', { exact: true }).first().click()
  const form = page.getByRole('form', { name: 'Note these facts' })
  for (const [question, answer] of [
    ['Prion disease', 'No suspicion'],
    ['Tissue touched, by infectivity', /^None found/],
    ['Mycobacteria', 'Suspected'],
    ['Has had bladder cancer', 'Not known'],
  ] as const) {
    // oxlint-disable-next-line no-await-in-loop
    await form.getByRole('group', { name: question }).getByRole('radio', { name: answer }).check()
  }
  await form.getByRole('button', { name: 'Note these facts' }).click()
  const noted = page.getByRole('region', { name: 'Infections and allergies that matter for the instruments' })
  await noted.getByText('Note them anew', { exact: true }).waitFor()
}

async function buildLoad(page: Page, machine: string, set: string, lot: string): Promise<string> {
  await goTo(page, 'Machines')
  await page.getByRole('link', { name: `Build a load: ${machine}` }).click()
  const form = page.getByRole('form', { name: 'Build load' })
  await form.getByRole('checkbox', { name: set }).check()
  await form.getByRole('textbox', { name: 'Lot of the biological indicator' }).fill(lot)
  await form.getByRole('button', { name: 'Build load' }).click()
  const heading = page.getByRole('heading', { level: 1, name: /^Load / })
  return ((await heading.textContent()) ?? '').replace('Load ', '')
}

async function dropCycle(page: Page, file: Parameters<typeof dropFile>[1], startedAt: string): Promise<void> {
  const region = page.getByRole('region', { name: 'Cycle log' })
  await dropFile(region.getByText('Drop the log of the cycle here, or choose the file'), file)
  const keep = page.getByRole('form', { name: 'Record this cycle' })
  await keep.getByLabel('First reading of the log was at').fill(startedAt)
  await keep.getByRole('textbox', { name: 'Cycle number on the machine' }).fill('1')
  await keep.getByRole('button', { name: 'Record this cycle' }).click()
  await keep.waitFor({ state: 'detached' })
}

async function readBiological(page: Page, hours: number): Promise<void> {
  await page.getByText('Read the biological indicator', { exact: true }).click()
  const form = page.getByRole('form', { name: 'Record biological indicator' })
  await form.getByRole('group', { name: 'Result' }).getByRole('radio', { name: 'No growth', exact: true }).check()
  await form
    .getByRole('group', { name: /^Control/ })
    .getByRole('radio', { name: 'Growth', exact: true })
    .check()
  await form.getByRole('spinbutton', { name: 'Incubated, hours' }).fill(String(hours))
  await form.getByRole('button', { name: 'Record biological indicator' }).click()
  await page.getByRole('heading', { name: /No growth, control grew/ }).waitFor()
}

async function release(page: Page): Promise<void> {
  const form = decision(page)
  await form.getByRole('radio', { name: 'Release' }).check()
  await form.getByText(/^(No rule stands against|Nothing bars) this/).waitFor()
  await form.getByRole('button', { name: 'Record decision' }).click()
  await page.getByText('Released, to be stored').first().waitFor()
}
