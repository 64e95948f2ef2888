import assert from 'node:assert/strict'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import { Instant, instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import { type RunningService, runService } from './running-service.ts'

const day = 86_400_000
export const surgeon = { id: 'person:ada', name: 'Ada' } as const

/** A chart of all operations: one in fifty is usual, one in ten to be noticed. */
export const chartOfAll: Bodies['chart-set'] = {
  chart: 'chart:all',
  name: 'All operations',
  procedures: [],
  usualRate: 0.02,
  raisedRate: 0.1,
  falseAlarmYears: 1,
  operationsPerYear: 120,
  headStart: true,
  riskAdjusted: false,
  why: 'The first chart of this unit',
}

/** Records one entry at its moment, and insists that it was kept. */
export async function keep<K extends KindName>(
  service: RunningService,
  kind: K,
  at: Instant,
  body: Bodies[K],
): Promise<void> {
  const entry = { id: v7(), site: 'unit', kind, happenedAt: at, by: surgeon.id, workstation: 'Desk', body }
  const answer = await service.ask('POST', '/api/entries', entry)
  assert.equal(answer.status, 201, `${kind}: ${JSON.stringify(answer.body)}`)
}

export function caseId(daysAgo: number): SubjectId<'case'> {
  return `case:d${daysAgo}` as SubjectId<'case'>
}

/** An operation so many days ago, booked and recorded; those of theatre 2 fall on even days. */
export async function keepOperation(service: RunningService, now: number, daysAgo: number): Promise<void> {
  const begun = now - daysAgo * day
  const id = caseId(daysAgo)
  await keep(service, 'case-booked', instant(begun - 3_600_000), {
    case: id,
    patient: `P-${daysAgo}`,
    procedure: 'Laparoscopic cholecystectomy',
    category: 'cholecystectomy',
    theatre: daysAgo % 2 === 0 ? 'Theatre 2' : 'Theatre 1',
    plannedAt: instant(begun),
    surgeon: surgeon.id,
    implantPlanned: false,
  })
  await keep(service, 'case-recorded', instant(begun + 3_600_000), {
    case: id,
    startedAt: instant(begun),
    endedAt: instant(begun + 3_600_000),
    woundClass: 'II',
    surgeon: surgeon.id,
    implant: null,
    antibiotic: null,
  })
}

/** A superficial infection of that operation, three days after it, noted and judged. */
export async function keepInfection(service: RunningService, now: number, daysAgo: number): Promise<void> {
  const seen = instant(now - (daysAgo - 3) * day)
  const wound = `wound:d${daysAgo}` as SubjectId<'wound'>
  await keep(service, 'wound-noted', seen, {
    wound,
    case: caseId(daysAgo),
    onsetAt: seen,
    depth: 'superficial',
    signs: 'Pus at the navel',
    culture: 'pending',
    acidFast: 'pending',
  })
  await keep(service, 'wound-judged', seen, {
    wound,
    outcome: 'infection',
    depth: 'superficial',
    criteria: ['pusFromIncision'],
    eventAt: seen,
  })
}

/** An empty unit of one person, and operations on the given days before now. */
export async function openWoundUnit(service: RunningService, now: number, days: readonly number[]): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: surgeon.name }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  // One after the other: the record is written in the order of the days.
  // oxlint-disable-next-line no-await-in-loop
  for (const each of days.toSorted((a, b) => b - a)) await keepOperation(service, now, each)
}

/** A running service whose clock stands still, with operations so many days before it, and infections of some of them. */
export async function runWoundUnit(unit: {
  readonly present: string
  readonly days: readonly number[]
  readonly infected: readonly number[]
  /** A clock that a test moves on; without it the present stands still. */
  readonly now?: () => Instant
}): Promise<RunningService> {
  const service = await runService({ now: unit.now ?? (() => Instant.parse(unit.present)) })
  const now = Date.parse(unit.present)
  await openWoundUnit(service, now, unit.days)
  // oxlint-disable-next-line no-await-in-loop: in the order of the days
  for (const each of unit.infected) await keepInfection(service, now, each)
  return service
}

/** What the service answers at this address, which is to be there. */
export async function answerOf<T>(service: RunningService, path: string): Promise<T> {
  const { status, body } = await service.ask('GET', path)
  assert.equal(status, 200, JSON.stringify(body))
  return body as T
}
