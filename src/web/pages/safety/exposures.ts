import { type Vapour, vapours } from '#road/gases/air-limits.ts'
import { daysAtAction } from '#road/gases/days-at-action.ts'
import { surveillanceDue } from '#road/gases/room-exposure.ts'
import { instant } from '#road/instant.ts'
import { dayIn } from '#road/local-day.ts'
import type { PersonKnown } from '#road/people/fold.ts'
import type { Found } from '#road/rule.ts'
import type { KnownRow } from '#service/api-types.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { useUnit } from '../../session/unit.ts'
import { useNow } from '../../session/use-now.ts'

export type Exposure = PersonKnown['exposures'][number]

export interface MeasuredOf {
  readonly person: PersonKnown
  readonly exposure: Exposure
}

/** All measurements of all people, the newest first. */
export function exposuresOf(people: readonly KnownRow<'person'>[]): readonly MeasuredOf[] {
  return people
    .flatMap(({ state }) => state.exposures.map((exposure) => ({ person: state, exposure })))
    .toSorted((a, b) => (a.exposure.at < b.exposure.at ? 1 : -1))
}

interface DaysOfVapour {
  readonly vapour: Vapour
  readonly days: number
  readonly last: Exposure
  readonly surveillance: readonly Found[]
}

/** For a person, each vapour that was measured: the last figures, and the days of the year up to now at the action level. */
export function useDays(): (person: PersonKnown) => readonly DaysOfVapour[] {
  const policy = usePolicy()
  const { unit } = useUnit()
  const now = useNow(60)
  return ({ exposures }) =>
    vapours.flatMap((vapour) => {
      const last = exposures.findLast((each) => each.figures.vapour === vapour)
      if (last === undefined) return []
      // The minute that is shown may be older than what has just been recorded.
      const until = last.at > instant(now) ? last.at : instant(now)
      const days = daysAtAction(exposures, { vapour, until, policy, dayOf: (at) => dayIn(unit.timeZone, at) })
      return [{ vapour, days, last, surveillance: surveillanceDue(days, policy) }]
    })
}
