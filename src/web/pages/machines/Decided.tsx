import { useQueries, useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { subjectKey } from '#road/subject.ts'
import { entryQuery, subjectQuery } from '../../api/queries.ts'
import { Findings } from '../../components/Findings.tsx'
import { InDoubt } from '../../components/InDoubt.tsx'
import { Named } from '../../components/Named.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** What was decided, by whom, and the findings that it was decided under. */
export function Decided({ load }: { readonly load: LoadKnown }) {
  const times = useTimes()
  const { data: entry } = useQuery({ ...entryQuery(load.decision?.entry ?? ''), enabled: load.decision !== null })
  const packs = useQueries({ queries: (load.decision?.packs ?? []).map(({ round }) => subjectQuery(round)) })
  if (load.decision === null) return null
  const w = words.machines
  return (
    <>
      <h2>{w.decide.decided}</h2>
      <p>
        {times.moment(load.decision.at)}, <Named id={load.decision.by} />
      </p>
      <ul className="lines">
        {load.decision.packs.map((pack, index) => (
          <li key={pack.round}>
            <div className="grow">
              <Link className="key" to={paths.oneRound(pack.round)}>
                {subjectKey(pack.round)}
              </Link>
              <InDoubt of={packs[index]?.data?.doubts} />
            </div>
            <strong>{words.standings.round[pack.outcome]}</strong>
            {pack.why !== undefined && <span className="soft">{pack.why}</span>}
          </li>
        ))}
      </ul>
      {entry !== undefined && entry.judgement.findings.length > 0 && <Findings findings={entry.judgement.findings} />}
    </>
  )
}
