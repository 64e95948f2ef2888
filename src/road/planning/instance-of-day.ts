import { PlanInstance } from '#workings/planning/instance.ts'
import type { Finding } from '../finding.ts'
import { dayIn } from '../local-day.ts'
import type { SubjectId } from '../subject.ts'
import { type CaseOfDay, caseOfDay } from './case-of-day.ts'
import { type DayClock, dayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { theatresOf } from './hours-of-unit.ts'
import { lineOfUnit } from './line-of-unit.ts'
import { setLead, surgeonGap, turnoverDirty, turnoverInfectious, turnoverStandard } from './limits.ts'
import { type OccupiedBy, occupied } from './occupied.ts'
import { routesOfType } from './routes-of-type.ts'
import { setReady } from './set-ready.ts'
import { setTypesOf } from './set-types.ts'
import { knownOfSets } from './sources.ts'
import { unitsOf } from './units-of-type.ts'

/** A day as the planner takes it, with the names behind it and what could not be turned into a number. */
export interface DayInstance {
  readonly day: string
  /** Null when nothing is left to plan, or what is known makes no instance; the findings say why. */
  readonly instance: PlanInstance | null
  readonly clock: DayClock
  readonly cases: readonly CaseOfDay[]
  /** Which set stands behind each unit of each type, where it is, and what cannot be counted on. */
  readonly units: readonly {
    readonly type: string
    readonly sets: readonly {
      readonly set: SubjectId<'set'>
      readonly name: string
      readonly at: number
      readonly says: string
    }[]
    readonly out: readonly { readonly set: SubjectId<'set'>; readonly name: string; readonly says: string }[]
  }[]
  /** Cases that are over or running: no longer planned, but their theatre is taken. */
  readonly begun: readonly OccupiedBy[]
  readonly findings: readonly Finding[]
}

/** Makes the planner's instance of a day from the record. Pure: the same facts give the same instance. */
export function instanceOfDay(facts: DayFacts): DayInstance {
  const { policy, unit } = facts
  const clock = dayClock(facts.day, unit.timeZone)
  const ofDay = facts.cases.filter(
    (each) => each.booked !== null && dayIn(unit.timeZone, each.locked?.startAt ?? each.booked.plannedAt) === facts.day,
  )
  const waiting = ofDay.filter((each) => each.recorded === null && each.opened.length === 0)
  const names = ofDay.flatMap((each) =>
    [each.booked?.theatre, each.locked?.theatre].filter((name) => name !== undefined),
  )
  const hours = theatresOf(facts, names)
  const types = setTypesOf(facts.sets)
  const begun = occupied(facts, ofDay, clock)
  const theatres = hours.theatres.map((theatre) => ({ ...theatre, open: opensFor(theatre, begun, facts, clock) }))
  const cases = waiting.flatMap((each) => caseOfDay(facts, each, { types, theatres, clock }) ?? [])
  const line = lineOfUnit(facts)
  const ways = types.map((type) => ({ type, ...routesOfType(facts, type, line) }))
  const pools = [...line.pools, ...new Map(ways.flatMap((way) => way.pools.map((pool) => [pool.id, pool]))).values()]
  const units = ways.map(({ type, routes, keeps }) => {
    const steps = Object.values(routes)[0] ?? []
    return {
      type: type.name,
      ready: type.sets.map((set) => ({ set, ...setReady(facts, { set, steps, keeps, pools, clock }) })),
      steps,
      keeps,
    }
  })
  const counted = unitsOf(facts, units, { types, clock, pools })
  const draft = {
    horizon: 2880,
    theatres,
    turnover: {
      standard: policy.limit(turnoverStandard).value,
      dirty: policy.limit(turnoverDirty).value,
      infectious: policy.limit(turnoverInfectious).value,
    },
    surgeonGap: policy.limit(surgeonGap).value,
    cases: cases.map(({ plan }) => withSurgeonBusy(plan, begun)),
    setTypes: counted.units.map(({ type, sets }) => {
      const way = ways.find((each) => each.type.name === type)
      const others = Object.keys(way?.others ?? {})
      return {
        id: type,
        units: sets.length,
        size: 1,
        lead: policy.limit(setLead).value,
        routes: Object.keys(way?.routes ?? {}),
        ...(others.length === 0 ? {} : { otherRoutes: others }),
        ...(way === undefined || way.keeps === null ? {} : { keeps: way.keeps }),
        avail: sets.map(({ at }) => Math.max(0, Math.min(20_160, Math.ceil(at)))),
      }
    }),
    routes: Object.fromEntries(
      ways.flatMap(({ routes, others }) => [...Object.entries(routes), ...Object.entries(others)]),
    ),
    pools,
  }
  const findings = [
    ...cases.flatMap((each) => each.findings),
    ...counted.findings,
    ...ways.flatMap(({ notes }) => notes),
    ...hours.notes,
    ...line.notes,
  ]
  const { instance, problems } = checked(draft, cases.length)
  return { day: facts.day, instance, clock, cases, units: counted.units, begun, findings: [...problems, ...findings] }
}

function opensFor(
  { id, open }: { readonly id: string; readonly open: number },
  begun: readonly OccupiedBy[],
  { now }: DayFacts,
  clock: DayClock,
): number {
  return Math.max(open, clock.minuteOf(now), ...begun.flatMap((each) => (each.theatre === id ? [each.freeAt] : [])))
}

function withSurgeonBusy<Case extends CaseOfDay['plan']>(plan: Case, begun: readonly OccupiedBy[]): Case {
  const until = Math.max(0, ...begun.flatMap((each) => (each.surgeon === plan.surgeon ? [each.surgeonFreeAt] : [])))
  return until <= (plan.earliest ?? 0) ? plan : { ...plan, earliest: until }
}

/** What the planner itself asks of an instance: what it cannot take is said and not planned. */
function checked(
  draft: unknown,
  count: number,
): { readonly instance: PlanInstance | null; readonly problems: readonly Finding[] } {
  const says = (text: string): Finding => ({
    rule: 'plan-instance',
    weight: 'notEvaluable',
    says: text,
    source: knownOfSets,
  })
  if (count === 0) return { instance: null, problems: [says('No case waits to be planned on this day.')] }
  const parsed = PlanInstance.safeParse(draft)
  if (parsed.success) return { instance: parsed.data, problems: [] }
  return {
    instance: null,
    problems: parsed.error.issues.map((issue) => says(`${issue.path.join('.')}: wanted ${issue.message}.`)),
  }
}

/** The list of a day. */
export function listSubject(day: string): SubjectId<'list'> {
  return `list:${day}`
}
