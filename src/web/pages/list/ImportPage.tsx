import { type ChangeEvent, useState } from 'react'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { formatOf } from '#road/list-import/format.ts'
import type { ListMapping } from '#road/list-import/mapping.ts'
import type { ListImportAnswer, ListPreview } from '#service/api-types.ts'
import { post, put } from '../../api/client.ts'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { useStore } from '../../session/use-store.ts'
import { whoStore } from '../../session/who.ts'
import { words } from '../../words/words.ts'
import { ImportMapping } from './ImportMapping.tsx'
import { ImportRows } from './ImportRows.tsx'

interface Chosen {
  readonly format: ListPreview['format']
  readonly text: string
}

/** A list of another system: looked at, mapped where that is needed, confirmed, recorded. */
export function ImportPage() {
  const w = words.listImport
  const client = useQueryClient()
  const by = useStore(whoStore)
  const [chosen, setChosen] = useState<Chosen | null>(null)
  const look = useMutation({ mutationFn: (asked: Chosen) => post<ListPreview>('/api/list-import/preview', asked) })
  const record = useMutation({
    mutationFn: (asked: Chosen & { readonly digest: string; readonly by: string }) =>
      post<ListImportAnswer>('/api/list-import', asked),
    onSuccess: () => void client.invalidateQueries(),
  })
  const keep = useMutation({
    mutationFn: (mapping: ListMapping) => put('/api/list-import/mapping', mapping),
    onSuccess: () => {
      if (chosen !== null) look.mutate(chosen)
    },
  })
  const choose = async ({ target }: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const [file] = target.files ?? []
    if (file === undefined) return
    const text = await file.text()
    const next = { format: formatOf(file.name, text), text }
    setChosen(next)
    record.reset()
    look.mutate(next)
  }
  const preview = look.data
  const done = record.data
  return (
    <Page title={w.title} lead={w.lead}>
      <label className="field">
        {w.file}
        <input
          type="file"
          accept=".csv,.txt,.ics,.hl7,text/csv,text/calendar"
          onChange={(event) => void choose(event)}
        />
      </label>
      {look.isPending && <output>{w.reading}</output>}
      {look.error !== null && <ProblemNote error={look.error} />}
      {preview !== undefined && done === undefined && (
        <>
          <section className="stack" aria-label={w.shows}>
            <h2>{w.shows}</h2>
            <output>{w.counts(preview.toRecord, preview.rows.filter(({ act }) => act === 'cannot').length)}</output>
            <ImportRows rows={preview.rows} />
            {preview.toRecord > 0 && <p className="caution">{w.lookAtNames}</p>}
            {preview.identities > 0 && <p>{w.identities(preview.identities)}</p>}
            {preview.toRecord === 0 && <p>{w.nothing}</p>}
            <WhoNeeded />
            {preview.toRecord > 0 && (
              <div>
                <button
                  type="button"
                  className="primary"
                  disabled={by === null || record.isPending || look.isPending}
                  onClick={() => {
                    if (by !== null && chosen !== null) record.mutate({ ...chosen, digest: preview.digest, by })
                  }}
                >
                  {w.record(preview.toRecord)}
                </button>
              </div>
            )}
            {record.error !== null && <ProblemNote error={record.error} />}
          </section>
          <ImportMapping
            key={JSON.stringify(preview.mapping)}
            preview={preview}
            busy={keep.isPending}
            keep={keep.mutate}
          />
          {keep.error !== null && <ProblemNote error={keep.error} />}
        </>
      )}
      {done !== undefined && <Done answer={done} />}
    </Page>
  )
}

function Done({ answer: { rows, identitiesKept, identitiesLeftOut } }: { readonly answer: ListImportAnswer }) {
  const w = words.listImport
  const isKept = (outcome: string): boolean => outcome === 'kept' || outcome === 'alreadyKept'
  const kept = rows.filter(({ outcome }) => isKept(outcome)).length
  const told = rows.filter(({ says }) => says.length > 0)
  return (
    <section className="stack">
      <output>
        <strong>{w.done(kept, rows.length - kept)}</strong>
      </output>
      {identitiesKept + identitiesLeftOut > 0 && <p>{w.doneIdentities(identitiesKept, identitiesLeftOut)}</p>}
      {told.length > 0 && (
        <ul className="lines">
          {told.map(({ line, says }) => (
            <li key={line}>{w.line(line, says.join(' '))}</li>
          ))}
        </ul>
      )}
    </section>
  )
}
