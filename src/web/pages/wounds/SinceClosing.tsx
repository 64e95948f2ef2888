import { Link } from 'react-router'
import type { InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import type { LookBack } from '#service/api-types.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { addedSince } from './added-since.ts'

interface Props {
  readonly now: InvestigationKnown
  readonly lookBack: LookBack
}

/** On the page of a closed investigation, and on its paper: as of when all of it is, and whether the record has changed since. */
export function SinceClosing({ now, lookBack }: Props) {
  const times = useTimes()
  const w = words.wounds.investigation.since
  const { since } = lookBack
  if (since === null) return null
  const added = addedSince(now, lookBack)
  const counts = [
    [since.cases.length, w.cases],
    [since.samples.length, w.samples],
    [since.recalls.length, w.recalls],
    [added.hypotheses.length + added.actions.length, w.added],
  ] as const
  const what = counts.flatMap(([count, says]) => (count === 0 ? [] : [says(count)]))
  const day = times.day(since.closedAt)
  return (
    <p>
      {what.length === 0 ? w.none(day) : w.changed(day, what.join(', '))}{' '}
      <Link className="no-print" to={paths.investigationNow(now.id)}>
        {w.link}
      </Link>
    </p>
  )
}
