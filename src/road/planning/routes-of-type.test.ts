import assert from 'node:assert/strict'
import { test } from 'node:test'
import { type Instant, instant, millis } from '../instant.ts'
import type { KnownOf } from '../known.ts'
import { policyFrom } from '../policy.ts'
import { knownAs, step } from '../rule-harness.ts'
import type { DayFacts } from './day-facts.ts'
import { instanceOfDay } from './instance-of-day.ts'

/* Each bath and each machine is a way of its own, by whatever name it is shown. */

const now = '2026-11-25T12:00:00.000Z' as Instant
const later = (minutes: number): Instant => instant(millis(now) + minutes * 60_000)

function setOf(key: string, name: string, device: string): KnownOf<'set'> {
  return knownAs('set', `set:${key}`, { name, countSheet: [{ device: `device:${device}`, count: 1 }] })
}

function facts(rest: Partial<DayFacts>): DayFacts {
  const booked = step('07:00', {
    patient: 'P',
    procedure: 'Operation',
    category: 'cholecystectomy' as const,
    theatre: 'Theatre 1',
    plannedAt: '2026-11-26T08:00:00.000Z' as Instant,
    surgeon: 'person:ann' as const,
    implantPlanned: false,
  })
  return {
    day: '2026-11-26',
    now,
    policy: policyFrom(undefined),
    unit: { timeZone: 'UTC' },
    cases: [knownAs('case', 'case:c1', { booked })],
    past: [],
    sets: [],
    rounds: [],
    loads: [],
    doubts: new Map(),
    machines: [],
    runs: new Map(),
    baths: [],
    devices: [],
    items: [],
    ...rest,
  }
}

/** A telescope that only a bath may treat: semi-critical, its maker lists the disinfection of it and nothing else. */
const scope = knownAs('device', 'device:scope', {
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
  litres: 8,
  activatedAt: later(-1440),
  expiresAt: later(60 * 1440),
})

/** A cystoscope: of urology, and so not for ortho-phthalaldehyde. */
const cysto = { ...scope, id: 'device:cysto' as const, name: 'Cystoscope', domain: 'urology' as const }

test('each bath is a pool and a way of its own, wherever the baths stand, however long their names are', () => {
  const sets = [setOf('s', 'Scope 1', 'scope'), setOf('c', 'Cysto 1', 'cysto')]
  const long = 'Endoscope reprocessing room beside the second theatre, basin' // 60 letters, all that an entry may have
  const rows: readonly (readonly [string, string, string, string, readonly [string, string]])[] = [
    ['a', 'Wash room', 'b', 'Sluice', ['Bath, Wash room', 'Bath, Sluice']],
    ['a', 'Wash room', 'b', 'Wash room', ['Bath, Wash room, a', 'Bath, Wash room, b']],
    ['a', long, 'b', long, [`Bath, ${long}`.slice(0, 64), `Bath, ${long}`.slice(0, 60).concat(' (2)')]],
    ['a', '', 'b', '', ['Bath, a', 'Bath, b']],
  ]
  for (const [opaKey, opaPlace, glutKey, glutPlace, names] of rows) {
    const baths = [
      { ...bath, id: `bath:${opaKey}` as const, place: opaPlace },
      { ...bath, id: `bath:${glutKey}` as const, product: 'glutaraldehyde-2.4' as const, place: glutPlace },
    ]
    const { instance, findings } = instanceOfDay(facts({ sets, devices: [scope, cysto], baths }))
    assert.ok(instance !== null, findings.map(({ says }) => says).join('; '))
    const wayOf = (id: string) => {
      const route = instance.setTypes.find((type) => type.id === id)?.routes[0] ?? ''
      return instance.routes[route]?.find(({ name }) => name === 'immerse')
    }
    // By hand: ortho-phthalaldehyde 0.55 % 12 min, glutaraldehyde 2.4 % 45 min (CDC Guideline 2008, Table 4).
    assert.deepEqual([wayOf('Scope')?.dur, wayOf('Scope')?.pool], [12, names[0]])
    assert.deepEqual([wayOf('Cysto')?.dur, wayOf('Cysto')?.pool], [45, names[1]])
    assert.deepEqual(
      instance.pools.filter(({ id }) => id.startsWith('Bath')).map(({ id, count }) => [id, count]),
      [
        [names[1], 1],
        [names[0], 1],
      ],
    )
  }
})

test('the way of an implant is another than that of what is no implant, however long the name of the machine is', () => {
  const name = 'Steam steriliser of the central department on the second floor, left'
  const sets = [setOf('p', 'Plates 1', 'screw'), setOf('b', 'Basic 1', 'grasper')]
  const rounds = [knownAs('round', 'round:p', { set: 'set:p', sealed: step('07:00', { implant: true } as never) })]
  const devices = ['screw', 'grasper'].map((key) => knownAs('device', `device:${key}`, { steam: 'allowed' }))
  const machines = [knownAs('machine', 'machine:a', { name, type: 'steamSteriliser', programs: ['p'] })]
  const { instance } = instanceOfDay(facts({ machines, sets, rounds, devices }))
  const waits = instance?.setTypes.map((type) => [
    type.id,
    type.routes.flatMap((route) => instance.routes[route] ?? []).some((each) => each.name === 'wait for the indicator'),
  ])
  assert.deepEqual(waits, [
    ['Basic', false],
    ['Plates', true],
  ])
})
