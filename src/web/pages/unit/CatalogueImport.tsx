import { type ChangeEvent, useState } from 'react'
import { useQuery, useQueryClient } from '@tanstack/react-query'
import { v7 } from 'uuid'
import { type CatalogueCsv, catalogueColumns, readCatalogueCsv } from '#road/catalogue/read-catalogue-csv.ts'
import type { EntryId, SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { knownQuery } from '../../api/queries.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { sendEntry } from '../../outbox/outbox.ts'
import { useUnit } from '../../session/unit.ts'
import { useStore } from '../../session/use-store.ts'
import { whoStore, workstationStore } from '../../session/who.ts'
import { words } from '../../words/words.ts'

type Body = CatalogueCsv['devices'][number]['body']
type Progress = { readonly sent: number } | { readonly error: Error }

/** Devices from a spreadsheet, all or none; those that are known already are left as they are. */
export function CatalogueImport() {
  const known = useQuery(knownQuery('device')).data ?? []
  const [read, setRead] = useState<CatalogueCsv | null>(null)
  const { progress, busy, by, send } = useDevices()
  const w = words.catalogue
  const fresh = (read?.devices ?? []).filter(({ body }) => known.every((row) => row.subject !== body.device))
  const choose = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const [file] = target.files ?? []
    if (file !== undefined) setRead(readCatalogueCsv(await file.text()))
  }
  const usable = read !== null && read.bad.length === 0 && fresh.length > 0
  return (
    <details className="sheet">
      <summary>{w.fromFile}</summary>
      <div className="stack">
        <p className="soft">{w.fromFileSays(Object.keys(catalogueColumns).join(', '))}</p>
        <label className="field">
          {w.file}
          <input type="file" accept=".csv,text/csv" onChange={(event) => void choose(event)} />
        </label>
        {read !== null && read.bad.length > 0 && (
          <ul className="lines" aria-label={w.badRows}>
            {read.bad.map(({ row, says }) => (
              <li key={`${row} ${says}`}>{w.badRow(row, says)}</li>
            ))}
          </ul>
        )}
        <output>
          {read !== null && read.bad.length === 0 && w.inFile(fresh.length, read.devices.length - fresh.length)}
          {progress !== null && 'sent' in progress && ` ${w.imported(progress.sent)}`}
        </output>
        <WhoNeeded />
        <div>
          <button
            type="button"
            disabled={!usable || busy || by === null}
            onClick={() => void send(fresh.map(({ body }) => body))}
          >
            {w.importDevices(fresh.length)}
          </button>
        </div>
        {progress !== null && 'error' in progress && <ProblemNote error={progress.error} />}
      </div>
    </details>
  )
}

/** One entry a device, one after the other, so that the first refusal stops the rest. */
function useDevices() {
  const { site } = useUnit()
  const by = useStore(whoStore)
  const workstation = useStore(workstationStore)
  const client = useQueryClient()
  const [progress, setProgress] = useState<Progress | null>(null)
  const [busy, setBusy] = useState(false)
  const send = async (bodies: readonly Body[]) => {
    if (by === null) return
    setBusy(true)
    try {
      for (const body of bodies) {
        const entry: SentEntry = {
          id: v7() as EntryId,
          site: site as SiteId,
          kind: 'device-registered',
          happenedAt: new Date().toISOString() as Instant,
          by,
          workstation,
          // A body is plain JSON by its schema.
          body: body as SentEntry['body'],
        }
        // oxlint-disable-next-line no-await-in-loop
        await sendEntry(entry, words.unit.register.device)
      }
      setProgress({ sent: bodies.length })
    } catch (error) {
      setProgress({ error: error instanceof Error ? error : new Error(String(error)) })
    }
    setBusy(false)
    void client.invalidateQueries()
  }
  return { progress, busy, by, send }
}
