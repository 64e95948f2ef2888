import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import { subjectKey } from '#road/subject.ts'
import type { ArrivalRow, ConnectionAnswer, ConnectionInput } from '#service/machine-answers.ts'
import { put } from '../../api/client.ts'
import { arrivalsQuery, connectionQuery } from '../../api/machine-queries.ts'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { FirstOf } from '../../components/FirstOf.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Table } from '../../components/Table.tsx'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { useStore } from '../../session/use-store.ts'
import { whoStore } from '../../session/who.ts'
import { words } from '../../words/words.ts'
import { nameOf } from './arrival-name.ts'

type Machine = SubjectId<'machine'>

/** How a machine brings its logs by itself, and what came. */
export function Connection({ machine }: { readonly machine: Machine }) {
  const w = words.connect
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <Loaded query={useQuery(connectionQuery(machine))}>
        {(answer) => (
          <>
            <Says answer={answer} />
            <details>
              <summary>{w.change}</summary>
              <ConnectionForm answer={answer} />
            </details>
          </>
        )}
      </Loaded>
      <Loaded query={useQuery(arrivalsQuery(machine))}>{(rows) => <Arrivals rows={rows} />}</Loaded>
    </section>
  )
}

function Says({ answer: { connection, folderSays, lineSays } }: { readonly answer: ConnectionAnswer }) {
  const w = words.connect
  if (connection.folder === null && connection.line === null) return <p>{w.off}</p>
  return (
    <>
      <p>{w.says}</p>
      <ul>
        {folderSays !== null && folderSays !== '' && <li>{folderSays}</li>}
        {lineSays !== null && lineSays !== '' && <li>{lineSays}</li>}
      </ul>
    </>
  )
}

function ConnectionForm({ answer }: { readonly answer: ConnectionAnswer }) {
  const by = useStore(whoStore)
  const client = useQueryClient()
  const { line } = answer.connection
  const [folder, setFolder] = useState(answer.connection.folder ?? '')
  const [address, setAddress] = useState(line?.address ?? '')
  const [port, setPort] = useState(String(line?.port ?? ''))
  const [from, setFrom] = useState(line?.from ?? '')
  const [startMark, setStart] = useState(line?.startMark ?? '')
  const [endMark, setEnd] = useState(line?.endMark ?? '')
  const [silence, setSilence] = useState(String(line?.silenceSeconds ?? 300))
  const text = (value: string) => (value.trim() === '' ? null : value.trim())
  const saving = useMutation({
    mutationFn: async () => {
      if (by === null) return
      const marks = { from: text(from), startMark: text(startMark), endMark: text(endMark) }
      const heard = { address, port: Number(port), ...marks, silenceSeconds: Number(silence) }
      await put<ConnectionAnswer>(`/api/machines/${encodeURIComponent(answer.machine)}/connection`, {
        by,
        connection: { folder: text(folder), line: address === '' ? null : heard },
      } satisfies ConnectionInput)
    },
    onSettled: () => client.invalidateQueries({ queryKey: ['connection'] }),
  })
  const w = words.connect
  return (
    <form
      className="form"
      aria-label={w.change}
      onSubmit={(event) => {
        event.preventDefault()
        saving.mutate()
      }}
    >
      {answer.folderRoot === null ? (
        <p>{w.folderNone}</p>
      ) : (
        <TextField
          label={w.folder}
          hint={w.folderHint(answer.folderRoot)}
          optional
          value={folder}
          onChange={setFolder}
        />
      )}
      {answer.addresses.length === 0 ? (
        <p>{w.addressNone}</p>
      ) : (
        <SelectField
          label={w.address}
          value={address}
          options={[
            { value: '', label: w.addressOff },
            ...answer.addresses.map((each) => ({ value: each, label: each })),
          ]}
          onChange={setAddress}
        />
      )}
      {address !== '' && (
        <>
          <TextField label={w.port} type="number" min={1024} max={65_535} value={port} onChange={setPort} />
          <TextField label={w.from} optional value={from} onChange={setFrom} />
          <TextField label={w.startMark} optional value={startMark} onChange={setStart} />
          <TextField label={w.endMark} optional value={endMark} onChange={setEnd} />
          <TextField label={w.silence} type="number" min={5} max={7200} value={silence} onChange={setSilence} />
        </>
      )}
      <WhoNeeded />
      <div>
        <button type="submit" disabled={saving.isPending || by === null}>
          {w.save}
        </button>
      </div>
      <output>{saving.isSuccess && w.saved}</output>
      {saving.error !== null && <ProblemNote error={saving.error} />}
    </form>
  )
}

function Arrivals({ rows }: { readonly rows: readonly ArrivalRow[] }) {
  const times = useTimes()
  const w = words.connect
  if (rows.length === 0) return <p>{w.nothing}</p>
  return (
    <FirstOf rows={rows} most={6}>
      {(shown) => (
        <Table>
          <caption>{w.arrived}</caption>
          <thead>
            <tr>
              <th scope="col">{w.came}</th>
              <th scope="col">{w.log}</th>
              <th scope="col">{w.goes}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <tr key={row.id}>
                <td>{times.moment(row.arrivedAt)}</td>
                <th scope="row">
                  {nameOf(row, times.moment)}
                  {row.note !== null && <p className="small soft">{row.note}</p>}
                </th>
                <td>
                  <WhatFor row={row} />
                </td>
              </tr>
            ))}
          </tbody>
        </Table>
      )}
    </FirstOf>
  )
}

function WhatFor({ row: { takenBy, proposals, problem } }: { readonly row: ArrivalRow }) {
  const w = words.connect
  if (takenBy.length > 0) {
    return (
      <>
        {w.readFor}{' '}
        {takenBy.map((load) => (
          <Link key={load} to={paths.load(load)}>
            {subjectKey(load)}
          </Link>
        ))}
      </>
    )
  }
  if (problem !== null) return w.aside(problem)
  if (proposals.length === 0) return w.noLoad
  return proposals.map(({ load, minutesBefore }) => (
    <p key={load}>
      {w.mayBe} <Link to={paths.load(load)}>{subjectKey(load)}</Link>, {w.before(minutesBefore)}
    </p>
  ))
}
