import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { AccountRow } from '#service/api-types.ts'
import { ask, post } from '../../api/client.ts'
import { Dialog } from '../../components/Dialog.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

interface Given {
  readonly name: string
  readonly code: string
  readonly until: string
}

/** What is asked before it is done: it ends what the person signs in with now. */
interface Asked {
  readonly row: AccountRow
  readonly what: 'giveCode' | 'close'
}

/** Everyone who works here, and what each signs in with; a new person is given a code here. */
export function Accounts() {
  const accounts = useQuery({ queryKey: ['accounts'], queryFn: () => ask<readonly AccountRow[]>('/api/accounts') })
  const client = useQueryClient()
  const times = useTimes()
  const [given, setGiven] = useState<Given | null>(null)
  const give = useMutation({
    async mutationFn({ person, name }: AccountRow) {
      const answer = await post<{ code: string; until: string }>(`/api/accounts/${encodeURIComponent(person)}/code`, {})
      setGiven({ name, ...answer })
      await client.invalidateQueries({ queryKey: ['accounts'] })
    },
  })
  const close = useMutation({
    async mutationFn({ person }: AccountRow) {
      await post(`/api/accounts/${encodeURIComponent(person)}/close`, {})
      await client.invalidateQueries({ queryKey: ['accounts'] })
    },
  })
  const [asked, setAsked] = useState<Asked | null>(null)
  const doAsked = ({ row, what }: Asked) => {
    setAsked(null)
    if (what === 'close') close.mutate(row)
    else give.mutate(row)
  }
  const w = words.signIn.accounts
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{w.lead}</p>
      {given !== null && (
        <output className="told stack">
          <span>{w.codeFor(given.name)}</span>
          <strong className="key">{given.code}</strong>
          <span>{w.codeSays(times.moment(given.until))}</span>
        </output>
      )}
      {asked !== null && (
        <Dialog title={w[asked.what]} onClose={() => setAsked(null)}>
          <p>{w.asks[asked.what](asked.row.name)}</p>
          <button type="button" className="main" onClick={() => doAsked(asked)}>
            {w.does[asked.what](asked.row.name)}
          </button>
        </Dialog>
      )}
      {(give.error ?? close.error) !== null && <ProblemNote error={give.error ?? close.error ?? new Error('')} />}
      <Loaded query={accounts}>
        {(rows) => (
          <ul className="lines">
            {rows.map((row) => (
              <li key={row.person}>
                <div className="grow">
                  <strong>{row.name}</strong>
                  <br />
                  <span className="soft small">{signsInBy(row, times.moment)}</span>
                </div>
                <button
                  type="button"
                  aria-label={w.giveCodeTo(row.name)}
                  onClick={() => (row.passphrase ? setAsked({ row, what: 'giveCode' }) : give.mutate(row))}
                >
                  {w.giveCode}
                </button>
                {row.passphrase && (
                  <button
                    type="button"
                    aria-label={w.closeOf(row.name)}
                    onClick={() => setAsked({ row, what: 'close' })}
                  >
                    {w.close}
                  </button>
                )}
              </li>
            ))}
          </ul>
        )}
      </Loaded>
    </section>
  )
}

function signsInBy(row: AccountRow, moment: (at: string) => string): string {
  const w = words.signIn.accounts
  const ways = (['passphrase', 'pin', 'badge'] as const).filter((way) => row[way]).map((way) => w[way])
  return [
    ways.length === 0 ? w.nothing : ways.join(', '),
    ...(row.codeUntil === null ? [] : [w.codeUntil(moment(row.codeUntil))]),
    ...(row.lockedUntil === null ? [] : [w.lockedUntil(moment(row.lockedUntil))]),
  ].join('; ')
}
