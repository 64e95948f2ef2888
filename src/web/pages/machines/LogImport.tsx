import { useMutation } from '@tanstack/react-query'
import { type DragEvent, useId, useState } from 'react'
import type { ArrivalRow } from '#service/machine-answers.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'
import type { LogPreview } from '../../components/log-preview.ts'
import { ArrivedLogs } from './ArrivedLogs.tsx'
import { LogReading } from './LogReading.tsx'
import './log-import.css'
import { loadPart } from '../../load-part.ts'
import { keptText } from '../../api/kept-text.ts'

export interface ChosenLog {
  readonly name: string
  readonly text: string
  readonly preview: LogPreview
  /** Set for a log that came by itself: by which digest it is kept, and when its first reading was as far as is known. */
  readonly arrived?: { readonly log: string; readonly firstReadingAt: string | null }
}

type Asked = File | (ArrivalRow & { readonly log: string })

/** Takes the log of a cycle by drop or by choice, and shows what it would say before anything is recorded. */
export function LogImport({ load }: { readonly load: LoadKnown }) {
  const id = useId()
  const [over, setOver] = useState(false)
  const opening = useMutation({
    mutationFn: async (asked: Asked): Promise<ChosenLog> => {
      const text = asked instanceof File ? await asked.text() : await keptText(asked.log)
      const { previewLog } = await loadPart(() => import('../../components/log-preview.ts'))
      const chosen = { name: asked.name, text, preview: previewLog(text) }
      if (asked instanceof File) return chosen
      return { ...chosen, arrived: { log: asked.log, firstReadingAt: asked.firstReadingAt } }
    },
  })
  const take = (file: File | undefined) => {
    if (file !== undefined) opening.mutate(file)
  }
  const onDrop = (event: DragEvent) => {
    event.preventDefault()
    setOver(false)
    take(event.dataTransfer.files[0])
  }
  const w = words.machines.log
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      {opening.data === undefined && load.machine !== null && (
        <ArrivedLogs machine={load.machine} load={load.id} onChoose={opening.mutate} />
      )}
      {opening.data === undefined ? (
        <div
          className={over ? 'drop over' : 'drop'}
          onDragOver={(event) => {
            event.preventDefault()
            setOver(true)
          }}
          onDragLeave={() => setOver(false)}
          onDrop={onDrop}
        >
          <p>{opening.isPending ? w.reading : w.drop}</p>
          <label className="button main" htmlFor={id}>
            {w.choose}
          </label>
          <input
            id={id}
            className="unseen"
            type="file"
            accept=".csv,.txt,.log,.tsv,text/*"
            onChange={(event) => take(event.target.files?.[0])}
          />
        </div>
      ) : (
        <>
          <div className="row apart">
            <p>{w.file(opening.data.name)}</p>
            <button type="button" onClick={() => opening.reset()}>
              {w.again}
            </button>
          </div>
          <LogReading key={opening.submittedAt} load={load} log={opening.data} />
        </>
      )}
      {opening.error !== null && <ProblemNote error={opening.error} />}
    </section>
  )
}
