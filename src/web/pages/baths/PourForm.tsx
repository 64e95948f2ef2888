import { useState } from 'react'
import { type BathProductId, bathProducts } from '#road/baths/products.ts'
import { type Instant, instant } from '#road/instant.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { datedKey } from '../../make-key.ts'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { ContainerFields } from './ContainerFields.tsx'
import { useContainer } from './use-container.ts'

const options = bathProducts.map(({ id, agent }) => ({ value: id, label: agent }))

/** A bath is poured and activated now, or at the time given below. */
export function PourForm({ onKept }: { readonly onKept: () => void }) {
  const times = useTimes()
  const [bath] = useState(() => datedKey('bath', 'bath', new Date()))
  const [moment, setMoment] = useState<string>()
  const now = instant(useNow(60))
  const [product, setProduct] = useState<BathProductId | ''>('')
  const container = useContainer()
  const { known, lot, printed } = container
  const [place, setPlace] = useState('')
  const [litres, setLitres] = useState('')
  const [expiry, setExpiry] = useState('')
  // A container that was poured from before has its expiry on record.
  const expiresAt = known?.state.expiresAt ?? times.fromInput(`${expiry}T23:59`)
  const w = words.baths
  const complete = product !== '' && lot !== undefined && place !== '' && Number(litres) > 0
  return (
    <EntryForm
      kind="bath-poured"
      body={
        complete && expiresAt !== undefined
          ? {
              bath,
              product,
              lot,
              ...printed,
              place,
              litres: Number(litres),
              // Its age counts from when it was poured, also when that is written down later.
              activatedAt: (moment ?? now) as Instant,
              expiresAt: expiresAt as Instant,
            }
          : null
      }
      action={w.pour}
      judged
      lacking={container.lacking}
      onKept={onKept}
      onMoment={setMoment}
    >
      <SelectField label={w.product} value={product} options={options} onChange={setProduct} />
      <div className="pair">
        <ContainerFields of={container} />
        {known === undefined && <TextField label={w.expires} type="date" value={expiry} onChange={setExpiry} />}
        <TextField label={w.place} value={place} onChange={setPlace} />
        <TextField label={w.litres} type="number" min={0} step="any" value={litres} onChange={setLitres} />
      </div>
    </EntryForm>
  )
}
