import assert from 'node:assert/strict'
import { test } from 'node:test'
import { RoadUnit } from '../../tests/support/road-unit.ts'
import type { Finding } from './finding.ts'
import type { Instant } from './instant.ts'
import type { Bodies } from './kinds.ts'

/* Days of wounds and investigations are those of the place where the unit is, not of Greenwich; through the whole road. */

const rulesOf = (findings: readonly Finding[]): readonly string[] => findings.map(({ rule }) => rule)

/** A unit in this time zone with one operation and a wound of it that was noted later. */
async function unitIn(timeZone: string, operatedAt: string, onsetAt: string): Promise<RoadUnit> {
  const unit = await RoadUnit.open()
  await unit.say('unit-opened', { unit: 'unit:u', name: 'Invented', timeZone, demonstration: false })
  const [startedAt, endedAt] = [operatedAt as Instant, operatedAt.replace(':00:00', ':50:00') as Instant]
  const booked = {
    patient: 'P',
    procedure: 'X',
    category: 'cholecystectomy',
    theatre: 'T',
    implantPlanned: false,
  } as const
  await unit.say('case-booked', { case: 'case:c', ...booked, plannedAt: startedAt, surgeon: 'person:sam' })
  const recorded = { woundClass: 'II', surgeon: 'person:sam', implant: null, antibiotic: null } as const
  await unit.say('case-recorded', { case: 'case:c', startedAt, endedAt, ...recorded })
  const noted = { depth: 'superficial', signs: 'Pus', culture: 'notTaken', acidFast: 'notDone' } as const
  await unit.say('wound-noted', { wound: 'wound:1', case: 'case:c', onsetAt: onsetAt as Instant, ...noted })
  return unit
}

const judged: Omit<Bodies['wound-judged'], 'eventAt' | 'why'> = {
  wound: 'wound:1',
  outcome: 'infection',
  depth: 'superficial',
  criteria: ['pusFromIncision'],
}
const opened: Omit<Bodies['investigation-opened'], 'from' | 'to'> = {
  investigation: 'investigation:1',
  because: 'worry',
  wounds: ['wound:1'],
  why: 'A worry',
  lead: 'person:ann',
}

test('given an operation of 1 October in Los Angeles, when pus is seen late on 30 October there, then it is within 30 days', async () => {
  // 21:00 of the 30th there is 04:00 of the 31st in Greenwich: NHSN counts calendar days, the day of the operation as day 1.
  const [at, late] = ['2026-10-31T04:00:00.000Z', '2026-10-31T08:00:00.000Z'] as const
  const unit = await unitIn('America/Los_Angeles', '2026-10-01T15:00:00.000Z', at)
  const within = await unit.say('wound-judged', { ...judged, eventAt: at as Instant, why: 'Seen by us' })
  assert.ok(!rulesOf(within.findings).includes('judged-in-window'), JSON.stringify(within.findings))
  const after = await unit.say('wound-judged', { ...judged, eventAt: late as Instant, why: 'Seen by us' })
  assert.ok(rulesOf(after.findings).includes('judged-in-window'), 'the 31st there is outside')
})

test('given an operation of 21 October in Auckland, when days from then are set, then its wound lies within them', async () => {
  const unit = await unitIn('Pacific/Auckland', '2026-10-20T20:00:00.000Z', '2026-10-25T20:00:00.000Z')
  const days = { from: '2026-10-21', to: '2026-10-31' }
  const said = await unit.say('investigation-opened', { ...opened, ...days })
  assert.deepEqual(rulesOf(said.findings), [])
})

test('given wounds that an investigation names, when its days are set so that one falls out, then it is told as at the opening', async () => {
  const unit = await unitIn('UTC', '2026-10-20T08:00:00.000Z', '2026-10-24T08:00:00.000Z')
  const [within, without] = [
    { from: '2026-10-01', to: '2026-10-31' },
    { from: '2026-10-25', to: '2026-10-31' },
  ]
  assert.deepEqual((await unit.say('investigation-opened', { ...opened, ...within })).findings, [])
  const set = await unit.say('investigation-window-set', {
    investigation: 'investigation:1',
    ...without,
    why: 'Shorter',
  })
  assert.deepEqual(rulesOf(set.findings), ['investigation-window-sound'])
  assert.equal(set.findings[0]?.weight, 'caution')
})
