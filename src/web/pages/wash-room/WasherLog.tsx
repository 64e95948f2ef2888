import { useMutation, useQuery } from '@tanstack/react-query'
import { useEffect, useId, useState } from 'react'
import { WasherLogMap } from '#workings/washer/washer-map.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { keepFile } from '../../api/keep-file.ts'
import { WasherChart } from '../../charts/WasherChart.tsx'
import { keptLogMap, sentLogMap } from '../../components/log-map-kinds.ts'
import type { LogPreview } from '../../components/log-preview.ts'
import { LogMap } from '../../components/LogMap.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'
import type { WasherReading } from './read-washer-log.ts'
import { loadPart } from '../../load-part.ts'

export interface WasherLogRead {
  readonly digest: string
  readonly a0Seconds: number | null
  readonly coldest?: string | undefined
  /** How its columns were read. */
  readonly map?: NonNullable<Bodies['machine-registered']['logMap']> | undefined
}

interface Props {
  readonly machine: SubjectId<'machine'> | null
  /** How the columns of this washer's logs are read, as it was kept. */
  readonly kept: unknown
  readonly onRead: (read: WasherLogRead | null) => void
}

interface OpenedLog {
  readonly text: string
  readonly digest: string
  readonly preview: LogPreview
}

/** Keeps a washer's log and computes the A0 of its coldest sensor; nothing is guessed where it cannot be read. */
export function WasherLog({ machine, kept, onRead }: Props) {
  const id = useId()
  const opening = useMutation({
    mutationFn: async (file: File): Promise<OpenedLog> => {
      const text = await file.text()
      const { previewLog } = await loadPart(() => import('../../components/log-preview.ts'))
      const preview = previewLog(text)
      const { digest } = await keepFile(file)
      return { text, digest, preview }
    },
    // What an earlier log said is not what this one says.
    onMutate: () => onRead(null),
  })
  const take = (file: File | undefined) => {
    if (file !== undefined) opening.mutate(file)
  }
  return (
    <div
      className="field"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault()
        take(event.dataTransfer.files[0])
      }}
    >
      <label htmlFor={id}>{words.wash.log}</label>
      <input
        id={id}
        type="file"
        accept=".csv,.txt,.log,.tsv,text/*"
        aria-describedby={`${id}-says`}
        onChange={(event) => take(event.target.files?.[0])}
      />
      <span id={`${id}-says`} className="soft small">
        {words.wash.logSays} {words.wash.logDrop}
      </span>
      {opening.isPending && <output>{words.wash.logReading}</output>}
      {opening.error !== null && <ProblemNote error={opening.error} />}
      {opening.data !== undefined && !opening.isPending && (
        <Reading
          key={`${machine ?? ''} ${opening.submittedAt}`}
          log={opening.data}
          machine={machine}
          kept={kept}
          onRead={onRead}
        />
      )}
    </div>
  )
}

function Reading({ log, machine, kept, onRead }: Props & { readonly log: OpenedLog }) {
  const { text, digest, preview } = log
  const [map, setMap] = useState(keptLogMap('washer', kept, preview.header) ?? preview.byNames.washer)
  const sent = map === null ? null : sentLogMap('washer', map)
  const asked = JSON.stringify(sent)
  const reading = useQuery({
    queryKey: ['washer log', digest, asked],
    queryFn: async () => {
      const { readWasherLog } = await loadPart(() => import('./read-washer-log.ts'))
      return readWasherLog(text, WasherLogMap.parse(JSON.parse(asked)))
    },
    enabled: sent !== null,
    retry: false,
  })
  const read = sent === null ? undefined : reading.data
  useEffect(() => {
    onRead({
      digest,
      a0Seconds: read?.a0Seconds ?? null,
      coldest: read?.coldest,
      ...(asked === 'null' ? {} : { map: JSON.parse(asked) as NonNullable<WasherLogRead['map']> }),
    })
  }, [onRead, digest, read, asked])
  return (
    <>
      {sent === null && <output>{words.wash.logUnmapped}</output>}
      {reading.error !== null && <ProblemNote error={reading.error} />}
      {read !== undefined && <Figures read={read} />}
      <LogMap kind="washer" preview={preview} map={map} onChange={setMap} machine={machine} />
    </>
  )
}

function Figures({ read }: { readonly read: WasherReading }) {
  return (
    <>
      <output>
        {read.a0Seconds === null ? (
          words.wash.a0None
        ) : (
          <strong>
            <Why
              of={{
                title: words.round.a0,
                value: words.wash.a0(String(read.a0Seconds)),
                says: words.round.a0Says,
                working: 'a0',
                inputs: read.coldest,
              }}
            >
              {words.wash.a0(String(read.a0Seconds))}
            </Why>
            , {words.wash.coldest(read.coldest ?? '')}
          </strong>
        )}
      </output>
      <WasherChart {...read.chart} cycle={read.cycle} />
      <ul className="plain">
        {read.cycle.findings
          .filter(({ weight }) => weight !== 'note')
          .map(({ rule, says }) => (
            <li key={`${rule} ${says}`}>{says}</li>
          ))}
      </ul>
    </>
  )
}
