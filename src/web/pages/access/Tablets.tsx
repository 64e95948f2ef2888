import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import type { DeviceRow } from '#service/api-types.ts'
import { ask, post } from '../../api/client.ts'
import { TextField } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { useNames } from '../../components/Named.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useTimes } from '../../session/unit.ts'
import { meQuery } from '../../sign-in/me.ts'
import { words } from '../../words/words.ts'

/** The tablets at which badge and PIN are enough. */
export function Tablets() {
  const devices = useQuery({ queryKey: ['devices'], queryFn: () => ask<readonly DeviceRow[]>('/api/devices') })
  const client = useQueryClient()
  const times = useTimes()
  const nameOf = useNames('person')
  const [name, setName] = useState('')
  const changed = async () => {
    setName('')
    await client.invalidateQueries({ queryKey: ['devices'] })
    await client.invalidateQueries({ queryKey: meQuery.queryKey })
  }
  const enrol = useMutation({ mutationFn: () => post<DeviceRow>('/api/devices', { name }), onSuccess: changed })
  const end = useMutation({ mutationFn: (id: string) => post(`/api/devices/${id}/end`, {}), onSuccess: changed })
  const submit = (event: FormEvent) => {
    event.preventDefault()
    enrol.mutate()
  }
  const w = words.signIn.tablets
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{w.lead}</p>
      <Loaded query={devices}>
        {(rows) =>
          rows.length === 0 ? (
            <p>{w.none}</p>
          ) : (
            <ul className="lines">
              {rows.map((row) => (
                <li key={row.id}>
                  <div className="grow">
                    <strong>{row.name}</strong>
                    <br />
                    <span className="soft small">
                      {w.enrolled(nameOf(row.enrolledBy), times.moment(row.enrolledAt))}
                      {row.endedAt !== null && `; ${w.ended(times.moment(row.endedAt))}`}
                    </span>
                  </div>
                  {row.endedAt === null && (
                    <button type="button" aria-label={w.endOf(row.name)} onClick={() => end.mutate(row.id)}>
                      {w.end}
                    </button>
                  )}
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
      <form className="form" aria-label={w.enrol} onSubmit={submit}>
        <TextField label={w.name} value={name} onChange={setName} />
        <div>
          <button type="submit" disabled={enrol.isPending}>
            {w.enrol}
          </button>
        </div>
        {(enrol.error ?? end.error) !== null && <ProblemNote error={enrol.error ?? end.error ?? new Error('')} />}
      </form>
    </section>
  )
}
