import { turnoverAfter, wounds } from '#workings/planning/instance.ts'
import type { CaseKnown } from '../operating/fold.ts'
import { subjectKey } from '../subject.ts'
import { caseMinutes } from './case-minutes.ts'
import type { DayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { surgeonGap, turnoverDirty, turnoverInfectious, turnoverStandard } from './limits.ts'

/** A case of the day that is over or running, and until when it takes its theatre and its surgeon. Minutes of the day. */
export interface OccupiedBy {
  readonly case: CaseKnown['id']
  readonly theatre: string
  readonly surgeon: string
  readonly start: number
  readonly end: number
  readonly running: boolean
  readonly freeAt: number
  readonly surgeonFreeAt: number
}

/** A running case is taken to last as long as such operations do, and at least until now. */
export function occupied(
  facts: Pick<DayFacts, 'policy' | 'past' | 'now'>,
  ofDay: readonly CaseKnown[],
  clock: DayClock,
): readonly OccupiedBy[] {
  const { policy } = facts
  const turnover = {
    standard: policy.limit(turnoverStandard).value,
    dirty: policy.limit(turnoverDirty).value,
    infectious: policy.limit(turnoverInfectious).value,
  }
  const past = facts.past.map((each) => each.case)
  return ofDay.flatMap((each) => {
    const { booked, recorded } = each
    if (booked === null || (recorded === null && each.opened.length === 0)) return []
    const start = clock.minuteOf(recorded?.startedAt ?? each.planned?.startAt ?? booked.plannedAt)
    const usual = start + caseMinutes(booked, past, policy).minutes
    const end = recorded === null ? Math.max(usual, clock.minuteOf(facts.now)) : clock.minuteOf(recorded.endedAt)
    const wound = wounds[['I', 'II', 'III', 'IV'].indexOf(recorded?.woundClass ?? 'II')] ?? 'clean-contaminated'
    const infectious = booked.forPlan?.infectiousRisk === true
    return [
      {
        case: each.id,
        theatre: each.planned?.theatre ?? booked.theatre,
        surgeon: subjectKey(recorded?.surgeon ?? booked.surgeon),
        start,
        end,
        running: recorded === null,
        freeAt: end + turnoverAfter({ wound, infectious }, { turnover }),
        surgeonFreeAt: end + policy.limit(surgeonGap).value,
      },
    ]
  })
}
