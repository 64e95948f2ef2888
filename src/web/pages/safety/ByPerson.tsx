import type { KnownRow } from '#service/api-types.ts'
import { Findings } from '../../components/Findings.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { useDays } from './exposures.ts'
import { Means } from './Means.tsx'

/** Each person who was measured: every vapour with its last figures and the days that count towards surveillance. */
export function ByPerson({ people }: { readonly people: readonly KnownRow<'person'>[] }) {
  const w = words.safety
  const days = useDays()
  const times = useTimes()
  const rows = people.flatMap(({ subject, state }) => days(state).map((row) => ({ subject, ...row })))
  return (
    <section className="stack" aria-label={w.byPerson}>
      <h2>{w.byPerson}</h2>
      {rows.length === 0 && <p className="soft">{w.none}</p>}
      <ul className="lines">
        {rows.map(({ subject, vapour, days: count, last, surveillance }) => (
          <li key={`${subject} ${vapour}`}>
            <div className="grow stack">
              <p>
                <strong>
                  <SubjectLink id={subject} />
                </strong>
                , {w.vapours[vapour]}. {w.daysAtAction(count)}
                <br />
                <span className="soft">
                  {w.last} {times.moment(last.at)}, {last.place}
                </span>
              </p>
              <Means of={last} />
              {surveillance.length > 0 && (
                <Findings findings={surveillance.map((each) => ({ rule: 'exposure-within-limits', ...each }))} />
              )}
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}
