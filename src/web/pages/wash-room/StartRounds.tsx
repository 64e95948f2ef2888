import type { KnownRow } from '#service/api-types.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { words } from '../../words/words.ts'
import { useNewRound } from './BackForm.tsx'

/** New sets go to the wash before anything else. */
export function StartRounds({ sets }: { readonly sets: readonly KnownRow<'set'>[] }) {
  return (
    <section className="stack">
      <h2>{words.wash.start}</h2>
      <p className="soft">{words.wash.startSays}</p>
      {sets.map((row) => (
        <StartRound key={row.subject} row={row} />
      ))}
    </section>
  )
}

function StartRound({ row }: { readonly row: KnownRow<'set'> }) {
  const round = useNewRound(row.subject)
  return (
    <details className="sheet">
      <summary>{row.state.name}</summary>
      <EntryForm
        kind="reprocessing-started"
        body={round === null ? null : { round, set: row.subject, because: 'newSet' }}
        action={`${words.wash.startDo}: ${row.state.name}`}
      />
    </details>
  )
}
