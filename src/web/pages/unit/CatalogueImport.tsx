import { type ChangeEvent, useRef, useState } from 'react'
import { useQuery, useQueryClient } from '@tanstack/react-query'
import { v7 } from 'uuid'
import { type CatalogueCsv, catalogueColumns, readCatalogueCsv } from '#road/catalogue/read-catalogue-csv.ts'
import type { EntryId, SentEntry, SiteId } from '#road/entry.ts'
import { stands } from '#road/finding.ts'
import type { Instant } from '#road/instant.ts'
import type { ApiProblem, EntryAnswer } from '#service/api-types.ts'
import { post } from '../../api/client.ts'
import { knownQuery } from '../../api/queries.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { useUnit } from '../../session/unit.ts'
import { useStore } from '../../session/use-store.ts'
import { whoStore, workstationStore } from '../../session/who.ts'
import { words } from '../../words/words.ts'

type Body = CatalogueCsv['devices'][number]['body']
interface Refused {
  readonly name: string
  readonly says: string
}
type Progress = { readonly sent: number; readonly refused: readonly Refused[] } | { readonly error: Error }

/**
 * Devices from a spreadsheet. Nothing is sent while a row cannot be read; those that are known already are left as
 * they are. What the service refuses is told by name, and does not keep the others back.
 */
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
        {progress !== null && 'sent' in progress && progress.refused.length > 0 && (
          <>
            <p>
              <strong>{w.notImported}</strong>
            </p>
            <ul className="lines" aria-label={w.notImported}>
              {progress.refused.map(({ name, says }) => (
                <li key={name}>{w.oneNotImported(name, says)}</li>
              ))}
            </ul>
          </>
        )}
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

/** The most entries that the service takes in one list. */
const mostAtOnce = 1000

/**
 * All devices as a list of entries, each kept or refused by itself, and every refusal told. It does not wait in the
 * outbox: whoever chose the file stands before it, and sends it again.
 */
function useDevices() {
  const { site } = useUnit()
  const by = useStore(whoStore)
  const workstation = useStore(workstationStore)
  const client = useQueryClient()
  const [progress, setProgress] = useState<Progress | null>(null)
  const [busy, setBusy] = useState(false)
  // What got no answer keeps its id, so that sending it again never makes two of one.
  const unanswered = useRef(new Map<string, SentEntry>())
  const entryOf = (body: Body, person: NonNullable<typeof by>): SentEntry => ({
    id: v7() as EntryId,
    site: site as SiteId,
    kind: 'device-registered',
    happenedAt: new Date().toISOString() as Instant,
    by: person,
    workstation,
    // A body is plain JSON by its schema.
    body: body as SentEntry['body'],
  })
  const sendSome = async (bodies: readonly Body[], person: NonNullable<typeof by>) => {
    const entries = bodies.map((body) => {
      const key = `${person} ${JSON.stringify(body)}`
      const entry = unanswered.current.get(key) ?? entryOf(body, person)
      unanswered.current.set(key, entry)
      return entry
    })
    const answers = await post<readonly EntryAnswer[]>('/api/entries', entries)
    unanswered.current.clear()
    return answers.flatMap((answer, place) =>
      'problem' in answer ? [{ name: bodies[place]?.name ?? '', says: saysOf(answer.problem) }] : [],
    )
  }
  const send = async (bodies: readonly Body[]) => {
    if (by === null) return
    setBusy(true)
    try {
      const refused: Refused[] = []
      for (let from = 0; from < bodies.length; from += mostAtOnce) {
        // A list that gets no answer stops those after it.
        // oxlint-disable-next-line no-await-in-loop
        refused.push(...(await sendSome(bodies.slice(from, from + mostAtOnce), by)))
      }
      setProgress({ sent: bodies.length - refused.length, refused })
    } catch (error) {
      setProgress({ error: error instanceof Error ? error : new Error(String(error)) })
    }
    setBusy(false)
    void client.invalidateQueries()
  }
  return { progress, busy, by, send }
}

/** Why one device was not taken, in the words of the service. */
function saysOf({ title, detail, findings = [], problems = [] }: ApiProblem): string {
  const reasons = [
    ...findings.filter((finding) => stands(finding)).map((finding) => finding.says),
    ...problems.map(({ field, wanted, current }) => `${field}: ${wanted}; ${current}`),
  ]
  return reasons.length > 0 ? reasons.join(' ') : detail === '' ? title : detail
}
