import { Link } from 'react-router'
import { parseSubject } from '#road/subject.ts'
import type { Suspects } from '#service/api-types.ts'
import { Named } from '../../components/Named.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly way: Suspects['recalls'][string]
  /** Why a recall is wanted, in words, for its form. */
  readonly because: string
  readonly name: string
}

/** One step to the recall of what a suspect touched; where it has none, why not and what to do. */
export function RecallSteps({ way, because, name }: Props) {
  const times = useTimes()
  const w = words.wounds.suspects
  return (
    <>
      {way.recalls.map(({ of, since }) => {
        const subject = parseSubject(of)
        return subject === undefined ? null : (
          <div key={of} className="no-print">
            <Link to={paths.recallOf(subject, because, since ?? undefined)}>
              {since === null ? w.recall : w.recallFrom(times.day(since))}
              {!name.includes(of.split(':')[1] ?? of) && (
                <>
                  : <Named id={subject} />
                </>
              )}
            </Link>
          </div>
        )
      })}
      {way.recalls.length === 0 && way.without === null && (
        <div className="small" style={{ fontWeight: 400 }}>
          {w.recallNoLoad}
        </div>
      )}
      {way.without !== null && (
        <div className="small" style={{ fontWeight: 400 }}>
          {w.without[way.without]}
        </div>
      )}
    </>
  )
}
