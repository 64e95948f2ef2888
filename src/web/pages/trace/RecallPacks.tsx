import type { RecallAnswer } from '#service/api-types.ts'
import { words } from '../../words/words.ts'
import { PlacePacks } from './PlacePacks.tsx'

export type RecallPack = RecallAnswer['packs'][number]

type Place = keyof typeof words.trace.recall.places

const order: readonly Place[] = ['shelf', 'used', 'other']

/** Every pack of the recall by where it is now; what is not accounted for stands first. */
export function RecallPacks({ answer }: { readonly answer: RecallAnswer }) {
  const w = words.trace.recall
  const counted = answer.packs.filter((pack) => pack.duty !== 'cleared')
  const done = counted.filter((pack) => pack.outcome !== null).length
  return (
    <section className="stack" aria-label={w.packs}>
      <h2>{w.packs}</h2>
      <output>{w.accounted(done, counted.length)}</output>
      {order.map((place) => {
        const packs = answer.packs
          .filter((pack) => placeOf(pack) === place)
          .toSorted((a, b) => Number(a.outcome !== null) - Number(b.outcome !== null))
        if (packs.length === 0) return null
        return <PlacePacks key={place} title={w.places[place]} packs={packs} answer={answer} />
      })}
    </section>
  )
}

function placeOf(pack: RecallPack): Place {
  if (pack.case !== null) return 'used'
  return ['onShelf', 'released', 'quarantined', 'inLoad', 'sealed'].includes(pack.place) ? 'shelf' : 'other'
}
