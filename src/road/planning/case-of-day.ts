import { type PlanCase, wounds } from '#workings/planning/instance.ts'
import type { Finding } from '../finding.ts'
import type { Instant } from '../instant.ts'
import type { WoundClass } from '../operating/entries.ts'
import type { CaseKnown } from '../operating/fold.ts'
import { procedureFacts } from '../operating/procedures.ts'
import { subjectKey } from '../subject.ts'
import { type CaseMinutes, caseMinutes } from './case-minutes.ts'
import { type CaseNeeds, caseNeeds } from './case-needs.ts'
import type { DayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { childLatest, defaultCaseMinutes, latexIsFirst, mayChangeTheatre, orderByClass } from './limits.ts'
import { ownRecord } from './sources.ts'
import type { SetTypeFound } from './set-types.ts'

/** A booked case as the planner takes it, with what each of its numbers came from. */
export interface CaseOfDay {
  readonly plan: PlanCase
  readonly id: CaseKnown['id']
  readonly procedure: string
  readonly bookedTheatre: string
  readonly bookedAt: Instant
  readonly minutes: CaseMinutes
  readonly needsFrom: CaseNeeds['from']
  readonly findings: readonly Finding[]
}

const classOrder: readonly WoundClass[] = ['I', 'II', 'III', 'IV']

interface Around {
  readonly types: readonly SetTypeFound[]
  readonly theatres: readonly { readonly id: string; readonly open: number }[]
  readonly clock: DayClock
}

/** Turns a booking into a case of the instance; what is not known is said. */
export function caseOfDay(
  facts: Pick<DayFacts, 'policy' | 'past'>,
  known: CaseKnown,
  around: Around,
): CaseOfDay | null {
  const { booked } = known
  if (booked === null) return null
  const name = subjectKey(known.id)
  const { policy } = facts
  const minutes = caseMinutes(
    booked,
    facts.past.map((each) => each.case),
    policy,
  )
  const needs = caseNeeds(booked, facts.past, around.types)
  const wound = woundOf(booked)
  const found = (weight: Finding['weight'], says: string, source: Finding['source'] = ownRecord): Finding => ({
    rule: 'plan-case',
    weight,
    says: `${name}: ${says}`,
    source,
  })
  const findings = [
    ...(minutes.from === 'default'
      ? [
          found(
            'notEvaluable',
            `not evaluable: no duration on record for ${booked.procedure}. Planned with the default of ${minutes.minutes} min.`,
            policy.limit(defaultCaseMinutes).source,
          ),
        ]
      : []),
    ...(needs.from === 'nothing'
      ? [found('notEvaluable', `not evaluable: no sets on record for ${booked.procedure}. Planned without sets.`)]
      : []),
    ...needs.unknown.map((type) =>
      found('notEvaluable', `its booking names sets "${type}", which the unit does not have.`),
    ),
    ...(wound === undefined
      ? [found('notEvaluable', 'not evaluable: its wound class is not known. Ordered as clean-contaminated.')]
      : []),
  ]
  const theatres = theatresFor(facts, known, around)
  const opens = Math.max(...around.theatres.flatMap(({ id, open }) => (theatres.includes(id) ? [open] : [])), 0)
  const times = timesOf(facts, known, { clock: around.clock, opens })
  const ordered = policy.limit(orderByClass).value
  return {
    plan: {
      id: name,
      dur: minutes.minutes,
      wound: ordered ? (wounds[classOrder.indexOf(wound ?? 'II')] ?? 'clean') : 'clean',
      implant: ordered && booked.implantPlanned,
      infectious: ordered && infectious(known),
      surgeon: subjectKey(booked.surgeon),
      theatres: [...theatres],
      ...times.bounds,
      needs: { ...needs.needs },
    },
    id: known.id,
    procedure: booked.procedure,
    bookedTheatre: booked.theatre,
    bookedAt: booked.plannedAt,
    minutes,
    needsFrom: needs.from,
    findings: [...findings, ...times.notes.map((says) => found('note', says))],
  }
}

function woundOf(booked: NonNullable<CaseKnown['booked']>): WoundClass | undefined {
  return booked.forPlan?.woundClass ?? (booked.category && procedureFacts[booked.category].usual)
}

/** What the patient may leave behind for the next one: said in the booking, or by what was noted of the patient. */
function infectious({ booked, patientFacts }: CaseKnown): boolean {
  const { mycobacteria = 'notKnown', prion = 'notKnown' } = patientFacts ?? {}
  const noted = mycobacteria === 'suspected' || mycobacteria === 'infection'
  return booked?.forPlan?.infectiousRisk === true || noted || !['noSuspicion', 'notKnown'].includes(prion)
}

function theatresFor(
  { policy }: Pick<DayFacts, 'policy'>,
  { booked, locked }: CaseKnown,
  { theatres }: Around,
): readonly string[] {
  const own = booked?.theatre ?? ''
  if (locked?.theatre !== undefined) return [locked.theatre]
  const said = booked?.forPlan?.theatres?.filter((name) => theatres.some(({ id }) => id === name)) ?? []
  if (said.length > 0) return said
  return policy.limit(mayChangeTheatre).value ? theatres.map(({ id }) => id) : [own]
}

/** Earliest and latest start from the booking, a fixed place, and what the policy asks for some patients. */
function timesOf(
  { policy }: Pick<DayFacts, 'policy'>,
  { booked, locked, patientFacts }: CaseKnown,
  { clock, opens }: { readonly clock: DayClock; readonly opens: number },
): { readonly bounds: Pick<PlanCase, 'earliest' | 'latest'>; readonly notes: readonly string[] } {
  const minuteOf = (at: Instant): number => Math.max(0, clock.minuteOf(at))
  if (locked?.startAt !== undefined) {
    const minute = minuteOf(locked.startAt)
    return { bounds: { earliest: minute, latest: minute }, notes: ['its start is fixed.'] }
  }
  const { earliest, latest, child } = booked?.forPlan ?? {}
  const latex = patientFacts?.allergies.includes('latex') === true && policy.limit(latexIsFirst).value
  const bounds = [
    ...(latest === undefined ? [] : [minuteOf(latest)]),
    ...(child === true ? [Math.round(policy.limit(childLatest).value * 60)] : []),
    ...(latex ? [Math.max(opens, earliest === undefined ? 0 : minuteOf(earliest))] : []),
  ]
  return {
    bounds: {
      ...(earliest === undefined ? {} : { earliest: minuteOf(earliest) }),
      ...(bounds.length === 0 ? {} : { latest: Math.min(...bounds) }),
    },
    notes: [
      ...(child === true ? ['a child: early on the list.'] : []),
      ...(latex ? ['allergic to latex: the first of its theatre.'] : []),
    ],
  }
}
