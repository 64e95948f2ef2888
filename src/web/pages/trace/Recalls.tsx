import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'

export function Recalls() {
  const times = useTimes()
  const w = words.trace
  return (
    <section className="stack" aria-label={w.recalls}>
      <h2>{w.recalls}</h2>
      <Loaded query={useQuery(knownQuery('recall'))}>
        {(rows) =>
          rows.length === 0 ? (
            <p className="soft">{w.noRecalls}</p>
          ) : (
            <ul className="lines">
              {rows.map((row) => (
                <li key={row.subject}>
                  <div className="grow">
                    <Link to={paths.recall(row.subject)}>{w.recall.title(subjectKey(row.subject))}</Link>
                    <br />
                    <span className="soft">
                      {row.state.opened !== null && `${row.state.opened.why}, ${times.moment(row.state.opened.at)}`}
                    </span>
                  </div>
                  <span className={row.standing === 'open' ? 'tag stop' : 'tag'}>
                    {standingText('recall', row.standing)}
                  </span>
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
    </section>
  )
}
