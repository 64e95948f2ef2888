import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import { bathProducts } from '#road/baths/products.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { entriesOfQuery, knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

const options = bathProducts.map(({ id, agent }) => ({ value: id, label: agent }))

/** Corrects what was poured: what was treated in the bath is judged anew by it. */
export function CorrectBath({ bath }: { readonly bath: BathKnown }) {
  const { data: entries } = useQuery(entriesOfQuery(bath.id))
  const { data: labels } = useQuery(knownQuery('lot'))
  const poured = entries?.findLast((entry) => entry.kind === 'bath-poured')
  const { product, lots, activatedAt, expiresAt } = bath
  const [lot] = lots
  if (poured === undefined || product === null || lot === undefined || activatedAt === null || expiresAt === null) {
    return null
  }
  if (labels === undefined) return null
  const label = labels.find(({ subject }) => subject === lot)?.state
  // What its label says was told with the pouring, and is told with its correction.
  const printed = {
    ...(label === undefined || label.number === '' ? {} : { lotNumber: label.number }),
    ...(label === undefined || label.maker === '' ? {} : { lotMaker: label.maker }),
  }
  return (
    <details>
      <summary>{words.baths.correct}</summary>
      <Fields
        key={poured.id}
        poured={poured}
        known={{
          bath: bath.id,
          product,
          lot,
          ...printed,
          place: bath.place,
          litres: bath.litres,
          activatedAt,
          expiresAt,
        }}
      />
    </details>
  )
}

interface FieldsProps {
  readonly poured: KeptEntry
  readonly known: {
    readonly bath: BathKnown['id']
    readonly product: NonNullable<BathKnown['product']>
    readonly lot: BathKnown['lots'][number]
    readonly lotNumber?: string
    readonly lotMaker?: string
    readonly place: string
    readonly litres: number
    readonly activatedAt: Instant
    readonly expiresAt: Instant
  }
}

function Fields({ poured, known }: FieldsProps) {
  const times = useTimes()
  const [product, setProduct] = useState<typeof known.product | ''>(known.product)
  const [place, setPlace] = useState(known.place)
  const [litres, setLitres] = useState(String(known.litres))
  const [expiry, setExpiry] = useState(times.toInput(known.expiresAt))
  const [activated, setActivated] = useState(times.toInput(known.activatedAt))
  const expiresAt = times.fromInput(expiry)
  const activatedAt = times.fromInput(activated)
  const w = words.baths
  const complete = product !== '' && place !== '' && Number(litres) > 0
  return (
    <EntryForm
      kind="bath-poured"
      body={
        complete && expiresAt !== undefined && activatedAt !== undefined
          ? {
              ...known,
              product,
              place,
              litres: Number(litres),
              activatedAt: activatedAt as Instant,
              expiresAt: expiresAt as Instant,
            }
          : null
      }
      corrects={poured.id}
      at={poured.happenedAt}
      action={w.correct}
      judged
    >
      <p className="soft">{w.correctSays}</p>
      <SelectField label={w.product} value={product} options={options} onChange={setProduct} />
      <div className="pair">
        <TextField label={w.place} value={place} onChange={setPlace} />
        <TextField label={w.litres} type="number" min={0} step="any" value={litres} onChange={setLitres} />
        <TextField label={w.activatedAt} type="datetime-local" value={activated} onChange={setActivated} />
        <TextField label={w.expires} type="datetime-local" value={expiry} onChange={setExpiry} />
      </div>
    </EntryForm>
  )
}
