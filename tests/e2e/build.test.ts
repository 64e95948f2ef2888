import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { v7 } from 'uuid'
import type { Browser, Page } from 'playwright-core'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { KnownPage } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { violationsOf } from '../support/page-check.ts'
import { cleanAndDry, handWash } from '../support/road-history-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, type Screen, workAs } from '../support/screen.ts'
import { UnitClock } from '../support/unit-clock.ts'

/*
 * A load is told what stands against it while its packs are ticked, before anything of it is kept: a lumen beyond the claim,
 * a mass beyond the claim, a wrap that soaks up the gas, a device that bears no moisture or whose maker does not list it.
 */

const clock = new UnitClock('2026-06-10T06:00:00.000Z')
let browser: Browser
let service: RunningService
let screen: Screen

before(async () => {
  browser = await openBrowser()
  service = await runService({ screens: builtScreens, now: clock.now })
  await furnish()
  screen = await openScreen(browser, service.url, { at: clock.milliseconds() })
  await workAs(screen.page, 'Ada')
})

after(async () => {
  await browser.close()
  await service.close()
})

async function record<K extends KindName>(kind: K, body: Bodies[K]): Promise<void> {
  const head = { id: v7(), site: 'unit', kind, happenedAt: clock.now(), by: 'person:ada', workstation: 'bench' }
  const answer = await service.ask('POST', '/api/entries', { ...head, body })
  assert.equal(answer.status, 201, `${kind}: ${JSON.stringify(answer.body)}`)
}

const device: Omit<Bodies['device-registered'], 'device' | 'name'> = {
  contact: 'critical',
  steam: 'allowed',
  makerMethods: [{ method: 'hydrogenPeroxide' }],
  materials: ['stainlessSteel'],
  moistureStable: true,
  vacuumStable: true,
  hasCellulose: false,
  hasLinen: false,
  hasLiquidOrOil: false,
  hasPowder: false,
  closedAirSpace: false,
  battery: false,
  lumens: [],
  parts: 1,
  insulated: false,
  optic: false,
  singleUse: false,
}

/* Each set has one device, so that its name tells what may be wrong with its pack. */
const packs = [
  { set: 'Forceps light', device: 'device:forceps', massKg: 3, material: 'synthetic' },
  { set: 'Forceps heavy', device: 'device:forceps', massKg: 7, material: 'synthetic' },
  { set: 'Forceps in paper', device: 'device:forceps', massKg: 1, material: 'cellulose' },
  { set: 'Long sheath', device: 'device:sheath', massKg: 1, material: 'synthetic' },
  { set: 'Camera cable', device: 'device:cable', massKg: 1, material: 'synthetic' },
] as const

async function furnish(): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Ada' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  const lumen = { diameterMm: 1, lengthMm: 600, openEnds: 2 as const, material: 'stainlessSteel' as const }
  await record('device-registered', { ...device, device: 'device:forceps', name: 'Forceps' })
  await record('device-registered', { ...device, device: 'device:sheath', name: 'Sheath', lumens: [lumen] })
  const cable = { makerMethods: [{ method: 'ethyleneOxide' as const }], moistureStable: false }
  await record('device-registered', { ...device, ...cable, device: 'device:cable', name: 'Cable' })
  await machines()
  for (const [place, pack] of packs.entries()) {
    const round = `round:r${place}` as const
    const set = `set:s${place}` as const
    const counted = [{ device: pack.device, count: 1 }]
    /* oxlint-disable no-await-in-loop: one step after the other */
    await record('set-registered', { set, name: pack.set, countSheet: counted })
    await record('reprocessing-started', { round, set, because: 'newSet' })
    await record('wash-recorded', { wash: `wash:w${place}`, rounds: [round], how: handWash })
    await record('inspected', { round, ...cleanAndDry })
    await record('pack-sealed', {
      round,
      wrap: 'pouch',
      material: pack.material,
      massKg: pack.massKg,
      insideIndicator: { type: '4', lot: 'c' },
      outsideIndicator: { type: '1', lot: 'c' },
      counted,
      implant: false,
    })
    /* oxlint-enable no-await-in-loop */
  }
}

async function machines(): Promise<void> {
  const machine = { airRemoval: 'none' as const, chamberLitres: 100 }
  await record('machine-registered', {
    ...machine,
    machine: 'machine:p',
    name: 'Peroxide steriliser',
    type: 'hydrogenPeroxideSteriliser',
    programs: ['peroxide-plasma'],
    lumenClaims: [
      {
        id: 'L3',
        materials: ['stainlessSteel'],
        flexible: false,
        maxChannels: 1,
        minDiameterMm: 0.7,
        maxLengthMm: 500,
        maxLumensInLoad: 10,
        maxLoadKg: 9.7,
      },
    ],
  })
  await record('machine-registered', {
    ...machine,
    machine: 'machine:eo',
    name: 'Gas steriliser',
    type: 'ethyleneOxideSteriliser',
    programs: ['ethylene-oxide'],
  })
  await record('machine-registered', {
    ...machine,
    machine: 'machine:s',
    name: 'Steam steriliser',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    programs: ['porous-134'],
  })
}

interface Told {
  readonly ticks: readonly (typeof packs)[number]['set'][]
  readonly says: RegExp
}

/** Ticks the packs, sees the finding come, takes the last pack out and sees it go. */
async function comesAndGoes(page: Page, { ticks, says }: Told): Promise<void> {
  const form = page.getByRole('form', { name: 'Build load' })
  const finding = form.getByRole('list', { name: 'Findings' }).getByText(says).first()
  const pack = (set: string) => form.getByRole('checkbox', { name: set })
  // oxlint-disable-next-line no-await-in-loop: as a hand ticks
  for (const set of ticks) await pack(set).check()
  await finding.waitFor()
  await form.getByText('Do not do this.').waitFor()
  await pack(ticks.at(-1) ?? '').uncheck()
  await finding.waitFor({ state: 'detached' })
  // oxlint-disable-next-line no-await-in-loop: as a hand ticks
  for (const set of ticks) await pack(set).uncheck()
}

async function loadsKept(): Promise<number> {
  const { body } = await service.ask('GET', '/api/known?kind=load')
  return (body as KnownPage).rows.length
}

test('a peroxide load tells lumen, mass, wrap and maker while it is built', async () => {
  const { page } = screen
  await page.goto('/machines/p/build')
  const form = page.getByRole('form', { name: 'Build load' })
  await form.getByRole('checkbox', { name: 'Long sheath' }).waitFor()
  assert.equal(await form.getByText('Do not do this.').count(), 0, 'nothing is told before a pack is ticked')
  for (const told of [
    { ticks: ['Long sheath'], says: /Sheath .*fits no claim of this steriliser/ },
    { ticks: ['Long sheath'], says: /L3: 600 mm is longer than 500 mm/ },
    { ticks: ['Forceps light', 'Forceps heavy'], says: /heavier than any claim/ },
    { ticks: ['Forceps light', 'Forceps heavy'], says: /10 kg.*9\.7 kg/ },
    { ticks: ['Forceps light', 'Forceps in paper'], says: /paper or another cellulose, which soaks up the peroxide/ },
    { ticks: ['Forceps light', 'Camera cable'], says: /Cable: .* is not in the list of the maker/ },
  ] as const) {
    // oxlint-disable-next-line no-await-in-loop: one load after the other
    await comesAndGoes(page, told)
  }
  assert.deepEqual(await violationsOf(page), [])
  assert.equal(await loadsKept(), 0, 'nothing of all this was kept')
})

test('a steam load tells a device that bears no moisture', async () => {
  const { page } = screen
  await page.goto('/machines/s/build')
  await comesAndGoes(page, { ticks: ['Camera cable'], says: /Cable: It does not bear the moisture of/ })
  assert.equal(await loadsKept(), 0)
})

test('a gas load tells what its maker does not list; without it, it is built', async () => {
  const { page } = screen
  await page.goto('/machines/eo/build')
  const says = /Forceps: Ethylene oxide is not in the list of the maker/
  await comesAndGoes(page, { ticks: ['Camera cable', 'Forceps light'], says })
  assert.equal(await loadsKept(), 0)
  const form = page.getByRole('form', { name: 'Build load' })
  await form.getByRole('checkbox', { name: 'Camera cable' }).check()
  await form.getByRole('textbox', { name: 'Lot of the biological indicator' }).fill('B-1')
  await form.getByRole('button', { name: 'Build load' }).click()
  await page.getByRole('heading', { level: 1, name: /^Load / }).waitFor()
  assert.equal(await loadsKept(), 1)
  noTroubles(screen)
})
