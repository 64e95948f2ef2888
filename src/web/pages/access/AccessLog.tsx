import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { AccessLine } from '#service/api-types.ts'
import { ask } from '../../api/client.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { useNames } from '../../components/Named.tsx'
import { Table } from '../../components/Table.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** Who signed in, was turned away, or changed who may. */
export function AccessLog() {
  const [shown, setShown] = useState(false)
  const [limit, setLimit] = useState(50)
  const log = useQuery({
    queryKey: ['access', limit],
    queryFn: () => ask<{ lines: readonly AccessLine[]; next: string | null }>(`/api/access?limit=${limit}`),
    enabled: shown,
  })
  const times = useTimes()
  const nameOf = useNames('person')
  const w = words.signIn.access
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{w.lead}</p>
      {!shown && (
        <div>
          <button type="button" onClick={() => setShown(true)}>
            {w.show}
          </button>
        </div>
      )}
      {shown && (
        <Loaded query={log}>
          {({ lines, next }) => (
            <>
              <Table>
                <thead>
                  <tr>
                    <th scope="col">{w.when}</th>
                    <th scope="col">{w.who}</th>
                    <th scope="col">{w.what}</th>
                    <th scope="col">{w.about}</th>
                  </tr>
                </thead>
                <tbody>
                  {lines.map((line) => (
                    <tr key={line.id}>
                      <td>{times.moment(line.at)}</td>
                      <td>{line.person === null ? w.unknown : nameOf(line.person)}</td>
                      <td>{line.what}</td>
                      <td>{line.about}</td>
                    </tr>
                  ))}
                </tbody>
              </Table>
              {next !== null && limit < 500 && (
                <div>
                  <button type="button" onClick={() => setLimit(Math.min(500, limit * 2))}>
                    {w.more}
                  </button>
                </div>
              )}
            </>
          )}
        </Loaded>
      )}
    </section>
  )
}
