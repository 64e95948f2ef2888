import { sentence } from '#units/sentence.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import type { SetKnown } from '../catalogue/fold.ts'
import type { Finding } from '../finding.ts'
import { subjectKey } from '../subject.ts'
import { caseMinutes } from './case-minutes.ts'
import { caseNeeds } from './case-needs.ts'
import type { DayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import type { DayInstance } from './instance-of-day.ts'
import type { SetReady } from './set-ready.ts'
import type { SetTypeFound } from './set-types.ts'
import { knownOfSets } from './sources.ts'
import { walkToUse } from './walk-line.ts'

interface TypeReady {
  readonly type: string
  readonly ready: readonly ({ readonly set: SetKnown } & SetReady)[]
  readonly steps: PlanInstance['routes'][string]
  readonly keeps: number | null
}

interface Around {
  readonly types: readonly SetTypeFound[]
  readonly clock: DayClock
  readonly pools: readonly PlanInstance['pools'][number][]
}

/**
 * The units of each type with the minute at which each is first there for the day. Cases before the day that still wait
 * take theirs first: each takes the set that is there soonest, which comes back through a line without queues.
 */
export function unitsOf(
  facts: Pick<DayFacts, 'cases' | 'past' | 'policy' | 'now'>,
  ready: readonly TypeReady[],
  around: Around,
): { readonly units: DayInstance['units']; readonly findings: readonly Finding[] } {
  const units = ready.map((each) => ({
    type: each.type,
    steps: each.steps,
    keeps: each.keeps,
    sets: each.ready.flatMap((one) =>
      one.kind === 'at' ? [{ set: one.set.id, name: one.set.name, at: one.minute, says: one.says }] : [],
    ),
    out: each.ready.flatMap((one) =>
      one.kind === 'out' ? [{ set: one.set.id, name: one.set.name, says: one.says }] : [],
    ),
  }))
  const taken = takeForCasesBefore(facts, units, around)
  const findings = units.flatMap(({ out }) =>
    out.map(({ name, says }) => finding('caution', sentence(`${name} is not counted on: ${says}`))),
  )
  return {
    units: units.map(({ type, sets, out }) => ({ type, sets: sets.toSorted((a, b) => a.at - b.at), out })),
    findings: [...findings, ...taken],
  }
}

type Unit = { set: SetKnown['id']; name: string; at: number; says: string }

function takeForCasesBefore(
  facts: Pick<DayFacts, 'cases' | 'past' | 'policy' | 'now'>,
  units: readonly (Pick<TypeReady, 'type' | 'steps' | 'keeps'> & { readonly sets: Unit[] })[],
  { types, clock, pools }: Around,
): readonly Finding[] {
  const before = facts.cases
    .flatMap((each) => (each.booked === null ? [] : [{ each, booked: each.booked }]))
    .filter(({ each, booked }) => each.recorded === null && each.opened.length === 0 && booked.plannedAt >= facts.now)
    .filter(({ booked }) => clock.minuteOf(booked.plannedAt) < 0)
    .sort((a, b) => (a.booked.plannedAt < b.booked.plannedAt ? -1 : 1))
  return before.flatMap(({ each, booked }) => {
    const past = facts.past.map((one) => one.case)
    const end = clock.minuteOf(booked.plannedAt) + caseMinutes(booked, past, facts.policy).minutes
    return Object.entries(caseNeeds(booked, facts.past, types).needs).flatMap(([type, count]) => {
      const own = units.find((one) => one.type === type)
      const taken = (own?.sets.toSorted((a, b) => a.at - b.at) ?? []).slice(0, count)
      for (const unit of taken) {
        const way = { steps: own?.steps ?? [], keeps: own?.keeps ?? null }
        unit.at = walkToUse(way, pools, Math.max(end, unit.at))
        unit.says = `used before the day in ${subjectKey(each.id)}`
      }
      if (taken.length === count) return []
      return [finding('caution', `${subjectKey(each.id)}, before this day, lacks ${count - taken.length} ${type}.`)]
    })
  })
}

function finding(weight: Finding['weight'], says: string): Finding {
  return { rule: 'plan-sets', weight, says, source: knownOfSets }
}
