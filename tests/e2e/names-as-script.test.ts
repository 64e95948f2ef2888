import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Page } from 'playwright-core'
import { v7 } from 'uuid'
import { instant } from '#road/instant.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import { parseSubject, type SubjectId } from '#road/subject.ts'
import type { KnownPage } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { isSettled } from '../support/page-check.ts'
import { cleanAndDry, handWash } from '../support/road-history-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, workAs } from '../support/screen.ts'
import { chartOfAll } from '../support/wound-store.ts'

/* Whoever names a room, a machine, a person, a set, a lot or a germ could name it as script: it is a name, and stays one. */

/** Ends an attribute and a text, and runs by itself in either of two ways. */
const script = `"><script>ran()</script><img src=x onerror=ran()>`
const named = (name: string): string => `${name} ${script}`
/** A theatre and a patient have room for one of them. */
const short = { T1: `T1 "><img src=x onerror=ran()>`, 'P-1': `P-1 "><script>ran()</script>` } as const
const theatre = short.T1
const textOf = (name: string): string => (name === 'T1' || name === 'P-1' ? short[name] : named(name))

const now = Date.now()
const day = 86_400_000
const expiresAt = instant(now + 300 * day)

type Say = <K extends KindName>(kind: K, body: Bodies[K], daysAgo?: number) => Promise<void>

/** Opens a unit whose manager and own name are script too. */
async function open(service: RunningService): Promise<{ readonly say: Say; readonly by: SubjectId<'person'> }> {
  const choice = { choice: 'empty', name: named('Harbour'), timeZone: 'UTC', manager: named('Ada') }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  const { body: people } = await service.ask('GET', '/api/known?kind=person')
  const by = (people as KnownPage<'person'>).rows[0]?.state.id ?? assert.fail('the manager is registered')
  const say: Say = async (kind, body, daysAgo = 0) => {
    const happenedAt = instant(now - daysAgo * day)
    const entry = { id: v7(), site: 'unit', kind, happenedAt, by, workstation: named('Desk'), body }
    const answer = await service.ask('POST', '/api/entries', entry)
    assert.equal(answer.status, 201, `${kind}: ${JSON.stringify(answer.body)}`)
  }
  return { say, by }
}

async function furnish(say: Say, by: SubjectId<'person'>): Promise<void> {
  await say('device-registered', {
    device: 'device:scope',
    name: named('Scope'),
    contact: 'critical',
    steam: 'allowed',
    lumens: [],
    parts: 1,
    insulated: false,
    optic: false,
    singleUse: false,
  })
  const countSheet = [{ device: 'device:scope' as const, count: 1 }]
  await say('set-registered', { set: 'set:a', name: named('Basic'), countSheet })
  await say('set-registered', { set: 'set:b', name: named('Other'), countSheet })
  await say('item-registered', { item: 'item:i1', device: 'device:scope', serial: named('S1') })
  await say('machine-registered', {
    machine: 'machine:s',
    name: named('Steam'),
    type: 'steamSteriliser',
    airRemoval: 'dynamic',
    chamberLitres: 100,
    programs: ['porous-134', named('P')],
  })
  await say('outlet-registered', { outlet: 'outlet:tap', name: named('Tap'), use: 'finalRinse', treatment: 'none' })
  const lot = { name: named('Strips'), number: named('L1'), maker: named('Maker'), expiresAt }
  await say('lot-opened', { ...lot, lot: 'lot:one', of: 'chemicalIndicator' })
  await say('storage-measured', { unit: 'unit:unit', place: named('Store'), temperatureC: 21, humidityPercent: 40 })
  const can = { lot: 'lot:can', lotNumber: named('OPA'), lotMaker: named('Can'), place: named('Sink') } as const
  const product = 'ortho-phthalaldehyde-0.55'
  const activatedAt = instant(now)
  await say('bath-poured', { ...can, bath: 'bath:b', product, litres: 8, activatedAt, expiresAt })
  await say('hours-set', {
    unit: 'unit:unit',
    hours: { kind: 'theatre', theatre, opens: '08:00', closes: '16:00', mustClose: '18:00' },
  })
  await goRound(say)
  await operate(say, by)
}

/** A set that is sealed and in a load, whose indicator grew; another that waits to be washed. */
async function goRound(say: Say): Promise<void> {
  await say('reprocessing-started', { round: 'round:a', set: 'set:a', because: 'newSet' })
  await say('reprocessing-started', { round: 'round:b', set: 'set:b', because: 'newSet' })
  await say('wash-recorded', { wash: 'wash:a', rounds: ['round:a'], how: handWash })
  await say('inspected', { round: 'round:a', ...cleanAndDry })
  await say('pack-sealed', {
    round: 'round:a',
    wrap: 'doubleWrap',
    insideIndicator: { type: '5', lot: named('I') },
    outsideIndicator: { type: '1', lot: named('O') },
    counted: [{ device: 'device:scope', count: 1 }],
    implant: false,
    massKg: 2,
  })
  const challenge = { biologicalLot: named('B') }
  const load = { machine: 'machine:s', program: named('P'), purpose: 'goods', challenge } as const
  await say('load-built', { ...load, load: 'load:l', rounds: ['round:a'] })
  const grown = { lot: named('B'), result: 'growth' } as const
  await say('biological-read', { ...grown, load: 'load:l', control: grown, incubatedHours: 24 })
}

/** An operation whose wound is looked into, and one of tomorrow. */
async function operate(say: Say, by: SubjectId<'person'>): Promise<void> {
  const booking = {
    patient: short['P-1'],
    procedure: named('Hernia'),
    category: 'inguinalHernia',
    theatre,
    surgeon: by,
    implantPlanned: false,
  } as const
  const startedAt = instant(now - 20 * day)
  await say('case-booked', { ...booking, case: 'case:c', plannedAt: startedAt }, 21)
  const implant = { description: named('Mesh'), lot: named('M1') }
  await say('case-recorded', {
    case: 'case:c',
    startedAt,
    endedAt: instant(now - 20 * day + 3_600_000),
    woundClass: 'II',
    surgeon: by,
    implant,
    antibiotic: { drug: named('Cefa'), startedAt },
  })
  const tomorrow = instant(Math.floor(now / day) * day + day + 36_000_000)
  await say('case-booked', {
    ...booking,
    case: 'case:next',
    plannedAt: tomorrow,
    forPlan: { minutes: 60, woundClass: 'II', sets: { [named('Set')]: 1 } },
  })
  const wound = 'wound:w'
  await say('wound-noted', {
    wound,
    case: 'case:c',
    onsetAt: instant(now - 10 * day),
    depth: 'superficial',
    signs: named('Pus'),
    culture: 'growth',
    acidFast: 'notDone',
    organism: named('Germ'),
  })
  const eventAt = instant(now - 10 * day)
  const criteria = ['pusFromIncision'] as const
  await say('wound-judged', { wound, outcome: 'infection', depth: 'superficial', criteria: [...criteria], eventAt })
  await say('follow-up-made', {
    case: 'case:c',
    means: 'phone',
    reached: 'patient',
    wound: 'suspicious',
    signs: ['pain'],
    alive: 'yes',
    note: named('Note'),
  })
  await say('chart-set', { ...chartOfAll, name: named('Chart'), why: named('Why') })
  const investigation = 'investigation:i'
  await say('investigation-opened', { investigation, because: 'worry', wounds: [wound], why: named('Why'), lead: by })
  await say('hypothesis-stated', { investigation, says: named('Air'), standing: 'tested' })
  await say('action-taken', { investigation, says: named('Done') })
  const sample = 'sample:s'
  const place = { place: 'air', where: named('Roof'), lookingFor: 'anything' } as const
  await say('sample-taken', { ...place, sample, investigation })
  const grown = { culture: 'growth', acidFast: 'notDone', sameAsWounds: 'same' } as const
  await say('sample-read', { ...grown, sample, organism: named('Germ') })
}

/** Each page, with names that are to be read on it. */
const pages: readonly (readonly [string, ...string[]])[] = [
  ['/', 'Harbour'],
  ['/rounds/a', 'Basic'],
  ['/wash-room', 'Other'],
  ['/wash-room/cards?device=scope', 'Scope'],
  ['/wash-room/water', 'Tap'],
  ['/packing'],
  ['/packing/a', 'Basic'],
  ['/machines', 'Steam'],
  ['/machines/s', 'Steam'],
  ['/machines/s/build', 'Steam'],
  ['/loads/l', 'P', 'Steam', 'Basic'],
  ['/baths', 'Sink'],
  ['/baths/b', 'Sink', 'OPA'],
  ['/lots', 'L1', 'Strips'],
  ['/lots/one', 'L1', 'Strips'],
  ['/safety'],
  ['/shelf', 'Store'],
  ['/theatre', 'Hernia', 'T1'],
  ['/theatre/c', 'Hernia', 'P-1', 'Mesh'],
  ['/theatre/book'],
  ['/list', 'T1', 'Hernia'],
  ['/wounds', 'Hernia'],
  ['/wounds/note?case=c', 'Hernia'],
  ['/wounds/follow-up?case=c', 'Hernia', 'Note'],
  ['/wounds/rates'],
  ['/wounds/charts', 'Chart'],
  ['/wounds/charts/all', 'Chart'],
  ['/wounds/suspects'],
  ['/wounds/investigations', 'Why'],
  ['/wounds/investigations/i', 'Air', 'Done', 'Roof', 'Germ'],
  ['/wounds/of/w', 'Pus', 'Germ'],
  ['/trace?subject=load:l', 'Steam', 'Basic'],
  ['/recalls/l', 'Basic'],
  ['/unit', 'Steam', 'Scope', 'Basic', 'Ada', 'T1'],
  ['/devices/scope', 'Scope'],
  ['/sets/a', 'Basic'],
  ['/items/i1', 'S1'],
  ['/bench'],
]

/** What a browser would have made of a name that was not a name. */
const made = `[...document.querySelectorAll('img[src="x"], script')]
  .filter((element) => element.outerHTML.includes('ran()')).map((element) => element.outerHTML)`

async function isText(page: Page, [path, ...names]: readonly [string, ...string[]]): Promise<readonly string[]> {
  await page.goto(path)
  await isSettled(page)
  const missing: string[] = []
  for (const name of names) {
    // oxlint-disable-next-line no-await-in-loop: one name after the other
    await page
      .getByText(textOf(name))
      .first()
      .waitFor({ state: 'attached', timeout: 10_000 })
      .catch(() => missing.push(`${name} is not shown`))
  }
  return [...missing, ...(await page.evaluate<readonly string[]>(made))].map((each) => `${path}: ${each}`)
}

test('names that are script are shown as text on every main page, and nothing of them runs', async () => {
  await using service = await runService({ screens: builtScreens })
  const { say, by } = await open(service)
  await furnish(say, by)
  assert.ok(parseSubject(by) !== undefined)
  const browser = await openBrowser()
  try {
    await using screen = await openScreen(browser, service.url)
    const { page } = screen
    const ran: string[] = []
    await screen.context.exposeFunction('ran', () => ran.push(page.url()))
    page.on('dialog', (dialog) => ran.push(dialog.message()))
    await workAs(page, named('Ada'))
    const found: string[] = []
    // oxlint-disable-next-line no-await-in-loop: one page after the other
    for (const each of pages) found.push(...(await isText(page, each)))
    assert.deepEqual(found, [])
    assert.deepEqual(ran, [])
    noTroubles(screen)
    assert.deepEqual(service.log, [])
    // The look itself finds what is made of a name: here it is written as markup.
    await page.evaluate(`document.body.insertAdjacentHTML('beforeend', ${JSON.stringify(script)})`)
    assert.equal((await page.evaluate<readonly string[]>(made)).length, 2)
  } finally {
    await browser.close()
  }
})
