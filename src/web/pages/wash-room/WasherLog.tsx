import { useMutation } from '@tanstack/react-query'
import { useId } from 'react'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Why } from '../../components/Why.tsx'
import { WasherChart } from '../../charts/WasherChart.tsx'
import { keepFile } from '../../api/keep-file.ts'
import type { WasherReading } from './read-washer-log.ts'
import { words } from '../../words/words.ts'

export interface WasherLogRead {
  readonly digest: string
  readonly a0Seconds: number | null
  readonly coldest?: string
  readonly cycle: WasherReading['cycle']
  readonly chart: WasherReading['chart']
}

/** Keeps a washer's log and computes the A0 of its coldest sensor; nothing is guessed where it cannot be read. */
export function WasherLog({ onRead }: { readonly onRead: (read: WasherLogRead) => void }) {
  const id = useId()
  const reading = useMutation({
    mutationFn: async (file: File): Promise<WasherLogRead> => {
      const text = await file.text()
      const { readWasherLog } = await import('./read-washer-log.ts')
      const read = readWasherLog(text)
      const { digest } = await keepFile(file)
      return { digest, ...read }
    },
    onSuccess: onRead,
  })
  const read = reading.data
  return (
    <div
      className="field"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault()
        const file = event.dataTransfer.files[0]
        if (file !== undefined) reading.mutate(file)
      }}
    >
      <label htmlFor={id}>{words.wash.log}</label>
      <input
        id={id}
        type="file"
        accept=".csv,.txt,.log,.tsv,text/*"
        aria-describedby={`${id}-says`}
        onChange={(event) => {
          const file = event.target.files?.[0]
          if (file !== undefined) reading.mutate(file)
        }}
      />
      <span id={`${id}-says`} className="soft small">
        {words.wash.logSays} {words.wash.logDrop}
      </span>
      <output>
        {reading.isPending && words.wash.logReading}
        {read !== undefined &&
          (read.a0Seconds === null ? (
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
          ))}
      </output>
      {read !== undefined && <WasherChart {...read.chart} cycle={read.cycle} />}
      {read !== undefined && (
        <ul className="plain">
          {read.cycle.findings
            .filter(({ weight }) => weight !== 'note')
            .map(({ rule, says }) => (
              <li key={`${rule} ${says}`}>{says}</li>
            ))}
        </ul>
      )}
      {reading.error !== null && <ProblemNote error={reading.error} />}
    </div>
  )
}
