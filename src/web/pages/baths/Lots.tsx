import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { FirstOf } from '../../components/FirstOf.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'

/** Containers and bottles in use or rejected; each leads to all that it was used for. */
export function Lots() {
  const times = useTimes()
  const { data = [] } = useQuery(knownQuery('lot', ['usable', 'toBeControlled', 'held', 'rejected']))
  const rows = data.filter(({ state }) => state.of === 'chemical' || state.of === 'strengthStrip')
  const w = words.baths
  if (rows.length === 0) return null
  return (
    <section className="stack" aria-label={w.lots}>
      <div className="row apart">
        <h2>{w.lots}</h2>
        <Link className="button" to={paths.lots}>
          {words.lots.title}
        </Link>
      </div>
      <FirstOf rows={rows} most={6}>
        {(shown) => (
          <ul className="lines">
            {shown.map(({ subject, standing, state }) => (
              <li key={subject}>
                <div className="grow">
                  <Link to={paths.lot(subject)}>{state.number || subjectKey(subject)}</Link>{' '}
                  <span className={standing === 'usable' ? 'tag' : 'tag stop'}>{standingText('lot', standing)}</span>
                  <br />
                  <span className="soft">
                    {w.lotKinds[state.of]}
                    {state.expiresAt !== null && `, ${w.expiresOn(times.day(state.expiresAt))}`}
                  </span>
                </div>
              </li>
            ))}
          </ul>
        )}
      </FirstOf>
    </section>
  )
}
