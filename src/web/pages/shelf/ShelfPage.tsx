import type { KnownRow } from '#service/api-types.ts'
import { Empty } from '../../components/Empty.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { useRounds } from '../../components/use-rounds.ts'
import { words } from '../../words/words.ts'
import { NoteCondition } from './NoteCondition.tsx'
import { Stock } from './Stock.tsx'
import { StoreClimate } from './StoreClimate.tsx'
import { StoreForm } from './StoreForm.tsx'

export function ShelfPage() {
  const w = words.theatre.shelf
  return (
    <Page title={w.title} lead={w.lead}>
      <Loaded query={useRounds()}>{(rounds) => <Shelf rounds={rounds} />}</Loaded>
    </Page>
  )
}

function Shelf({ rounds }: { readonly rounds: readonly KnownRow<'round'>[] }) {
  const w = words.theatre.shelf
  const released = rounds.filter((row) => row.standing === 'released')
  const stock = rounds.filter(
    (row) => row.standing === 'onShelf' || (row.standing === 'damaged' && row.state.stored !== null),
  )
  const places = [...new Set(rounds.flatMap((row) => row.state.stored?.place ?? []))].toSorted()
  return (
    <>
      <Next says={released.length > 0 ? w.next(released.length) : w.ready} />
      {released.length > 0 && (
        <section className="stack" aria-label={w.toStore}>
          <h2>{w.toStore}</h2>
          {released.map((row) => (
            <StoreForm key={row.subject} row={row} places={places} />
          ))}
          <NoteCondition rounds={released.map((row) => row.subject)} />
        </section>
      )}
      {stock.length === 0 ? (
        <Empty>
          <p>{w.empty}</p>
        </Empty>
      ) : (
        <Stock rows={stock} />
      )}
      <StoreClimate />
    </>
  )
}
