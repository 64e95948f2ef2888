import { useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import type { AttachmentDigest } from '#road/attachment.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { SelectField, Tick } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'
import { WasherLog, type WasherLogRead } from './WasherLog.tsx'

type How = Bodies['wash-recorded']['how']

export function WasherPart({ onChange }: { readonly onChange: (how: How | null) => void }) {
  const { data: machines = [] } = useQuery(knownQuery('machine', ['inService']))
  const washers = machines.filter((row) => row.state.type === 'washer')
  const [machine, setMachine] = useState<SubjectId<'machine'> | ''>('')
  const [program, setProgram] = useState('')
  const [takenApart, setTakenApart] = useState(false)
  const [log, setLog] = useState<WasherLogRead | null>(null)
  const used = machine === '' ? washers[0]?.subject : machine
  const washer = washers.find((row) => row.subject === used)?.state
  const programs = washer?.programs ?? []
  const run = program === '' ? programs[0] : program
  useEffect(() => {
    if (used === undefined || run === undefined) return onChange(null)
    onChange({
      kind: 'washer',
      machine: used,
      program: run,
      takenApart,
      a0Seconds: log?.a0Seconds ?? null,
      ...(log === null ? {} : { log: log.digest as AttachmentDigest }),
      ...(log?.map === undefined ? {} : { logMap: log.map }),
      ...(log?.coldest === undefined ? {} : { coldestChannel: log.coldest }),
    })
  }, [onChange, used, run, takenApart, log])
  if (washers.length === 0) return <p className="soft">{words.wash.noWasher}</p>
  return (
    <>
      <div className="pair">
        <SelectField
          label={words.wash.machine}
          value={used ?? ''}
          options={washers.map((row) => ({ value: row.subject, label: row.state.name }))}
          onChange={setMachine}
        />
        <SelectField
          label={words.wash.program}
          value={run ?? ''}
          options={programs.map((each) => ({ value: each, label: each }))}
          onChange={setProgram}
        />
      </div>
      <Tick checked={takenApart} onChange={setTakenApart}>
        {words.wash.takenApart}
      </Tick>
      <WasherLog machine={used ?? null} kept={washer?.logMap ?? null} onRead={setLog} />
    </>
  )
}
