import { useInfiniteQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { IdentityLogLine } from '#service/api-types.ts'
import { ask } from '../../api/client.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { useNames } from '../../components/Named.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { Table } from '../../components/Table.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

interface LogPage {
  readonly lines: readonly IdentityLogLine[]
  readonly next: string | null
}

/** Who saw, wrote or erased which patient's identity, and why. */
export function IdentityLog() {
  const [shown, setShown] = useState(false)
  const log = useInfiniteQuery({
    queryKey: ['identity-log'],
    queryFn: ({ pageParam }) => ask<LogPage>(`/api/identities/log?limit=100${pageParam}`),
    initialPageParam: '',
    getNextPageParam: ({ next }) => (next === null ? null : `&before=${next}`),
    enabled: shown,
  })
  const times = useTimes()
  const nameOf = useNames('person')
  const w = words.identity
  const heads = [words.signIn.access.when, words.signIn.access.who, words.signIn.access.what, w.log.case, w.why]
  return (
    <section className="stack" aria-label={w.log.title}>
      <h2>{w.log.title}</h2>
      <p className="soft">{w.log.lead}</p>
      {!shown && (
        <div>
          <button type="button" onClick={() => setShown(true)}>
            {w.log.show}
          </button>
        </div>
      )}
      {shown && (
        <Loaded query={log}>
          {({ pages }) => (
            <Table>
              <thead>
                <tr>
                  {heads.map((head) => (
                    <th key={head} scope="col">
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {pages
                  .flatMap(({ lines }) => lines)
                  .map((line) => (
                    <tr key={line.id}>
                      <td>{times.moment(line.at)}</td>
                      <td>{line.person === null ? w.log.commandLine : nameOf(line.person)}</td>
                      <td>{w.log.acts[line.act]}</td>
                      <td>{line.case === null ? w.empty : <SubjectLink id={line.case} />}</td>
                      <td>{w.reasons[line.why]}</td>
                    </tr>
                  ))}
              </tbody>
            </Table>
          )}
        </Loaded>
      )}
      {shown && log.hasNextPage && (
        <div>
          <button type="button" disabled={log.isFetching} onClick={() => void log.fetchNextPage()}>
            {w.log.more}
          </button>
        </div>
      )}
    </section>
  )
}
