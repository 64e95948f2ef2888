import assert from 'node:assert/strict'
import { test } from 'node:test'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { planDay } from '#workings/planning/plan-day.ts'
import { purchasesOf } from '#workings/planning/purchases.ts'
import { type Instant, instant, millis } from '../instant.ts'
import type { KnownOf } from '../known.ts'
import { policyFrom } from '../policy.ts'
import { knownAs, step } from '../rule-harness.ts'
import type { RoundKnown } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import { dayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { instanceOfDay } from './instance-of-day.ts'
import { walkLine } from './walk-line.ts'

const now = '2026-11-25T12:00:00.000Z' as Instant
const later = (minutes: number): Instant => instant(millis(now) + minutes * 60_000)
const surgeon = 'person:ann' as const

const stamp = { at: now, entry: step('07:00', {}).entry, by: surgeon }
const clean = {
  cleanliness: 'clean' as const,
  magnified: true,
  function: 'works' as const,
  insulation: 'passed' as const,
  dry: true,
}

const device = knownAs('device', 'device:grasper', { name: 'Grasper', steam: 'allowed' })
const machine = (id: 'a' | 'w', type: 'steamSteriliser' | 'washer') =>
  knownAs('machine', `machine:${id}`, { name: id === 'a' ? 'Steriliser' : 'Washer', type, programs: ['p'] })

function setOn(key: string, round: Partial<RoundKnown>): { set: KnownOf<'set'>; round: RoundKnown } {
  const id = `round:${key}` as const
  const set = knownAs('set', `set:${key}`, {
    name: `Basic ${key}`,
    countSheet: [{ device: 'device:grasper', count: 3 }],
    round: { id, began: now },
    rounds: 1,
  })
  return { set, round: knownAs('round', id, { set: set.id, ...round }) }
}

const released = {
  sealed: step('07:00', {} as never),
  load: step('08:00', { id: 'load:1' as const }),
  decision: step('09:00', { load: 'load:1' as const, outcome: 'released' as const, why: null }),
  stored: step('09:30', { place: 'Store' }),
}

type Booked = NonNullable<KnownOf<'case'>['booked']>

function booked(key: string, plannedAt: Instant, rest: Partial<Booked> = {}): KnownOf<'case'> {
  return knownAs('case', `case:${key}`, {
    booked: step('07:00', {
      patient: 'P',
      procedure: 'Operation',
      category: 'cholecystectomy' as const,
      theatre: 'Theatre 1',
      plannedAt,
      surgeon,
      implantPlanned: false,
      ...rest,
    }),
  })
}

/** An operation of the past that took so many minutes and opened one set. */
function past(minutes: number, index: number): DayFacts['past'][number] {
  const startedAt = later(-10_000 - index * 1440)
  const operation = booked(`p${index}`, startedAt)
  const recorded = step('07:00', {
    startedAt,
    endedAt: instant(millis(startedAt) + minutes * 60_000),
    woundClass: 'II' as const,
    surgeon,
    implant: null,
    antibiotic: null,
  })
  return { case: { ...operation, recorded }, sets: ['set:1'] as readonly SubjectId<'set'>[] }
}

function facts(rest: Partial<DayFacts> = {}): DayFacts {
  const one = setOn('1', released)
  return {
    day: '2026-11-26',
    now,
    policy: policyFrom(undefined),
    unit: { timeZone: 'UTC' },
    cases: [booked('c1', '2026-11-26T08:00:00.000Z' as Instant)],
    past: [40, 50, 60, 70, 80].map(past),
    sets: [one.set],
    rounds: [one.round],
    loads: [],
    doubts: new Map(),
    machines: [machine('a', 'steamSteriliser'), machine('w', 'washer')],
    runs: new Map(),
    baths: [],
    devices: [device],
    items: [],
    ...rest,
  }
}

test('a day is made of its booked cases, with durations and sets from the record', () => {
  const { instance, cases, findings } = instanceOfDay(facts())
  // The geometric mean of 40, 50, 60, 70 and 80 is (40·50·60·70·80)^(1/5) = 58.26 min.
  assert.equal(cases[0]?.minutes.from, 'surgeonAndProcedure')
  assert.ok(Math.abs((cases[0]?.minutes.fit?.geometricMean ?? 0) - (40 * 50 * 60 * 70 * 80) ** 0.2) < 1e-9)
  assert.equal(instance?.cases[0]?.dur, 58)
  assert.deepEqual(instance?.cases[0]?.needs, { Basic: 1 })
  assert.equal(instance?.cases[0]?.wound, 'clean-contaminated')
  assert.deepEqual(instance?.setTypes[0]?.avail, [0])
  assert.deepEqual(
    instance?.routes['Steam, Steriliser']?.map(({ name }) => name),
    ['soak', 'take apart', 'wash', 'inspect and pack', 'sterilise', 'cool and store'],
  )
  assert.ok(findings.some(({ says }) => /Theatre 1: hours are defaults/.test(says)))
})

test('what cannot be turned into a number is said, never dropped', () => {
  const strange = booked('c2', '2026-11-26T09:00:00.000Z' as Instant, { procedure: 'Never done here' })
  const { booked: own } = strange
  assert.ok(own)
  const { category: _, ...withoutKind } = own
  const { instance, findings } = instanceOfDay(facts({ cases: [{ ...strange, booked: withoutKind }] }))
  assert.equal(instance?.cases.length, 1)
  assert.equal(instance?.cases[0]?.dur, 90)
  const said = findings.filter(({ weight }) => weight === 'notEvaluable').map(({ says }) => says)
  assert.ok(said.some((says) => /no duration on record for Never done here/.test(says)))
  assert.ok(said.some((says) => /no sets on record for Never done here/.test(says)))
  assert.ok(said.some((says) => /wound class is not known/.test(says)))
})

test('each set is there by where it is in its round', () => {
  const load = (rest: Partial<KnownOf<'load'>>) => knownAs('load', 'load:1', { machine: 'machine:a', ...rest })
  const { stored: _s, decision: _d, ...inLoad } = released
  const cycle = { endedAt: now } as unknown as KnownOf<'load'>['cycle']
  const held = {
    ...inLoad,
    decision: step('09:00', { load: 'load:1' as const, outcome: 'quarantined' as const, why: 'Implant' }),
  }
  const gas = { aeration: step('06:00', { setC: 50 }), aerated: null }
  const rows: readonly (readonly [string, Partial<RoundKnown>, KnownOf<'load'> | undefined, number | RegExp])[] = [
    ['on the shelf', released, undefined, 0],
    // Packing 12 min, steam 60 min, cooling 40 min from 12:00 of the day before: long there at midnight.
    ['inspected', { inspection: step('11:00', clean) }, undefined, 0],
    // Aerated from 06:00 for 12 h at 50 °C and then stored.
    ['aerating', inLoad, load({ gas: gas as unknown as KnownOf<'load'>['gas'] }), 0],
    // 12:00 and the incubation of 24 h for steam: noon of the day itself.
    ['waiting for its indicator', held, load({ cycle, challenge: { biologicalLot: 'L1' } }), 720],
    ['held for another reason', held, load({ cycle }), /in quarantine: Implant/],
    ['damaged', { ...released, damage: step('10:00', { condition: 'wet' as const }) }, undefined, /its pack is wet/],
  ]
  for (const [name, round, itsLoad, wanted] of rows) {
    const one = setOn('1', round)
    const made = instanceOfDay(
      facts({ sets: [one.set], rounds: [one.round], loads: itsLoad === undefined ? [] : [itsLoad] }),
    )
    if (typeof wanted === 'number') assert.deepEqual(made.instance?.setTypes[0]?.avail, [wanted], name)
    else {
      assert.equal(made.instance?.setTypes[0]?.units, 0, name)
      assert.ok(
        made.findings.some(({ says }) => wanted.test(says)),
        `${name}: ${made.findings.map(({ says }) => says).join('; ')}`,
      )
    }
  }
})

test('a set in doubt is not counted on', () => {
  const made = instanceOfDay(facts({ doubts: new Map([['round:1', [{ rule: 'r', says: 'its load is recalled' }]]]) }))
  assert.equal(made.instance?.setTypes[0]?.units, 0)
  assert.ok(made.findings.some(({ says }) => says === 'Basic 1 is not counted on: in doubt: its load is recalled.'))
})

test('a case before the day takes its set first, and brings it back through the line', () => {
  const before = booked('c0', later(6 * 60))
  const made = instanceOfDay(facts({ cases: [before, ...facts().cases] }))
  assert.equal(made.instance?.cases.length, 1)
  // 18:00 + 58 min + soak 20 = 19:18; taken apart 19:26; the washer needs 60 min and the line ends at 20:00, so on the day
  // itself: washed 07:00 to 08:00, packed 08:12, sterilised 09:12, stored 09:52.
  assert.deepEqual(made.instance?.setTypes[0]?.avail, [9 * 60 + 52])
})

test('a fixed place, an allergy to latex and a child bound the start', () => {
  const plannedAt = '2026-11-26T08:00:00.000Z' as Instant
  const lockedCase = {
    ...booked('c1', plannedAt),
    locked: step('10:00', { theatre: 'Theatre 1', startAt: later(24 * 60) }),
  }
  const child = booked('c2', plannedAt, { forPlan: { child: true, earliest: later(21 * 60) } })
  const latex = { ...booked('c3', plannedAt), patientFacts: step('07:00', { allergies: ['latex'] } as never) }
  const { instance } = instanceOfDay(facts({ cases: [lockedCase, child, latex] }))
  const bounds = instance?.cases.map(({ earliest, latest }) => [earliest, latest])
  assert.deepEqual(bounds, [
    [720, 720],
    [540, 660],
    [undefined, 480],
  ])
})

test('a running case takes its theatre and its surgeon', () => {
  const running = {
    ...booked('c0', '2026-11-26T08:00:00.000Z' as Instant),
    opened: [step('07:30', { round: 'round:9' } as never)],
  }
  const made = instanceOfDay(facts({ now: '2026-11-26T08:30:00.000Z' as Instant, cases: [running, ...facts().cases] }))
  // 08:00 and 58 min, then a turnover of 20 and a gap of 10.
  assert.equal(made.instance?.theatres[0]?.open, 8 * 60 + 78)
  assert.equal(made.instance?.cases[0]?.earliest, 8 * 60 + 68)
})

test('a machine that is out of service is not planned with, and a set without a way serves once', () => {
  const out = { ...machine('a', 'steamSteriliser'), service: { state: 'withdrawn' as const, since: now, why: 'leak' } }
  const made = instanceOfDay(facts({ machines: [out] }))
  assert.ok(made.findings.some(({ says }) => /Steriliser is out of service/.test(says)))
  assert.ok(made.findings.some(({ says }) => /no way of the unit makes it sterile/.test(says)))
  assert.equal(made.instance?.routes['Basic: none']?.[0]?.dur, 20_160)
})

/** A telescope that only a bath may treat: semi-critical, its maker lists the disinfection of it and nothing else. */
const scope = knownAs('device', 'device:grasper', {
  name: 'Telescope',
  contact: 'semiCritical',
  steam: 'barred',
  optic: true,
  materials: ['glass', 'stainlessSteel'],
  immersible: true,
  moistureStable: true,
  makerMethods: [{ method: 'bathDisinfect' }],
})
const bath = knownAs('bath', 'bath:b', {
  product: 'ortho-phthalaldehyde-0.55',
  place: 'Wash room',
  litres: 8,
  activatedAt: later(-1440),
  expiresAt: later(60 * 1440),
})

test('a set that only a bath may treat serves several cases, fresh each time, and is never counted as stored', () => {
  const cases = ['c1', 'c2', 'c3'].map((key) => booked(key, '2026-11-26T08:00:00.000Z' as Instant))
  const { instance, findings } = instanceOfDay(facts({ cases, devices: [scope], baths: [bath] }))
  assert.ok(instance !== null, findings.map(({ says }) => says).join('; '))
  const [type] = instance.setTypes
  // Ortho-phthalaldehyde 0.55 % by hand: 12 min (CDC Guideline 2008, Table 4); three rinses of 1 min; used within 60 min.
  const way = instance.routes[type?.routes[0] ?? ''] ?? []
  assert.deepEqual(
    way.map(({ name, dur }) => [name, dur]),
    [
      ['soak', 20],
      ['take apart', 8],
      ['wash', undefined],
      ['inspect', 12],
      ['immerse', 12],
      ['rinse', 3],
    ],
  )
  assert.equal(type?.keeps, 60)
  // From the shelf it is there at once; from the sink it is treated on the day, at seven when the line opens.
  const washed = setOn('1', { inspection: step('11:00', clean) })
  const treated = instanceOfDay(
    facts({ cases, devices: [scope], baths: [bath], sets: [washed.set], rounds: [washed.round] }),
  )
  assert.deepEqual(treated.instance?.setTypes[0]?.avail, [420 + 12 + 3])
  assert.deepEqual(
    instance.pools.filter(({ id }) => id.startsWith('Bath')).map(({ kind, count }) => [kind, count]),
    [['staff', 1]],
  )
  assert.ok(
    findings.some(({ says }) => /treated for use at once before each case, and never stored as sterile/.test(says)),
  )
  const { schedule } = planDay(instance, { seed: 1, decodes: 300 })
  assert.ok(schedule !== null)
  assert.deepEqual(checkPlan(instance, schedule), [])
  assert.equal(schedule.uses.filter(({ job }) => job !== undefined).length, 2)
  for (const { job } of schedule.uses) {
    const next = Object.values(schedule.cases).find(({ start }) => start >= (job?.ready ?? Infinity))
    if (job !== undefined) assert.ok((next?.start ?? Infinity) - job.ready <= 60, 'fresh out of the bath')
  }
})

test('another way that the catalogue allows is named with its reason and source, and tried where it is quicker', () => {
  const both = knownAs('device', 'device:grasper', {
    ...device,
    steam: 'allowed',
    heatStable134: true,
    moistureStable: true,
    vacuumStable: true,
    materials: ['stainlessSteel'],
    makerMethods: [{ method: 'steam' }, { method: 'hydrogenPeroxide' }],
  })
  const peroxide = knownAs('machine', 'machine:p', {
    name: 'Peroxide',
    type: 'hydrogenPeroxideSteriliser',
    programs: ['p'],
  })
  const cases = ['c1', 'c2'].map((key) => booked(key, '2026-11-26T08:00:00.000Z' as Instant))
  const runs = new Map([
    ['machine:a', { places: 4, minutes: 75, n: 9 }],
    ['machine:p', { places: 2, minutes: 50, n: 9 }],
  ])
  const machines = [...facts().machines, peroxide]
  const { instance, findings } = instanceOfDay(facts({ cases, devices: [both], machines, runs }))
  assert.ok(instance !== null)
  const [type] = instance.setTypes
  assert.deepEqual([type?.routes, type?.otherRoutes], [['Steam, Steriliser'], ['Hydrogen peroxide gas, Peroxide']])
  const other = findings.find(({ rule }) => rule === 'plan-other-way')
  assert.match(other?.says ?? '', /^Basic: another way is allowed\. Hydrogen peroxide gas is open to every part of it/)
  assert.ok((other?.source.title ?? '').length > 0)
  const faster = purchasesOf(instance).filter(({ kind }) => kind === 'fasterRoute')
  assert.deepEqual(
    faster.map(({ what, says }) => [what, says]),
    [['Basic', 'Basic by Hydrogen peroxide gas, Peroxide too, 25 min quicker']],
  )
  const slow = new Map([...runs, ['machine:p', { places: 2, minutes: 80, n: 9 }] as const])
  const slower = instanceOfDay(facts({ cases, devices: [both], machines, runs: slow })).instance
  assert.ok(slower !== null)
  assert.deepEqual(
    purchasesOf(slower).filter(({ kind }) => kind === 'fasterRoute'),
    [],
  )
  const steamOnly = { ...both, makerMethods: [{ method: 'steam' as const }] }
  const barred = instanceOfDay(facts({ cases, devices: [steamOnly], machines, runs })).instance
  assert.equal(barred?.setTypes[0]?.otherRoutes, undefined)
})

test('hours that are set stand in place of the defaults', () => {
  const hours = {
    'theatre Theatre 1': step('07:00', {
      kind: 'theatre' as const,
      theatre: 'Theatre 1',
      opens: '07:30',
      closes: '15:00',
      mustClose: '17:15',
    }),
    'staff packing': {
      kind: 'staff' as const,
      place: 'packing' as const,
      count: 3,
      from: '06:00',
      to: '22:00',
      ...stamp,
    },
    'machine:a': step('07:00', {
      kind: 'machine' as const,
      machine: 'machine:a' as const,
      from: '08:00',
      to: '21:00',
      places: 5,
      runMinutes: 75,
    }),
  }
  const { instance, findings } = instanceOfDay(facts({ unit: { timeZone: 'UTC', hours } }))
  assert.deepEqual(instance?.theatres[0], { id: 'Theatre 1', open: 450, close: 900, hardClose: 1035 })
  const pools = new Map(instance?.pools.map((pool) => [pool.id, pool]))
  assert.equal(pools.get('packing')?.count, 3)
  assert.deepEqual(pools.get('Steriliser'), {
    id: 'Steriliser',
    kind: 'batch',
    count: 1,
    cap: 5,
    dur: 75,
    from: 480,
    to: 1260,
  })
  assert.ok(!findings.some(({ says }) => /Theatre 1: hours are|Packing: staff/.test(says)))
})

test('the day begins at midnight where the unit is, on days of a change of the clock too', () => {
  // Central European Summer Time began on 29 March 2026 at 01:00 UTC (Directive 2000/84/EC, Articles 2 and 3).
  assert.equal(dayClock('2026-03-29', 'Europe/Vienna').instantOf(0), '2026-03-28T23:00:00.000Z')
  assert.equal(dayClock('2026-03-30', 'Europe/Vienna').instantOf(0), '2026-03-29T22:00:00.000Z')
  assert.equal(dayClock('2026-11-26', 'Europe/Vienna').minuteOf('2026-11-26T07:00:00.000Z' as Instant), 480)
})

test('a step waits for the hours of the line, which come back each day', () => {
  const pools = [{ id: 'bench', kind: 'staff' as const, count: 1, from: 420, to: 1200 }]
  const pack = [{ name: 'pack', kind: 'staff' as const, pool: 'bench', dur: 30 }]
  assert.equal(walkLine(pack, pools, 600), 630)
  assert.equal(walkLine(pack, pools, 1180), 1440 + 450)
  assert.equal(walkLine(pack, pools, -300), -270)
  assert.equal(walkLine(pack, pools, -200), 450)
  assert.equal(
    walkLine([{ ...pack[0], name: 'pack', kind: 'staff', pool: 'bench', dur: 800 }], pools, 0),
    Number.POSITIVE_INFINITY,
  )
})
