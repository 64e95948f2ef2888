import { useState } from 'react'
import { stripBottleDays } from '#road/baths/limits.ts'
import { type BathProductId, bathProducts } from '#road/baths/products.ts'
import { type Instant, instant } from '#road/instant.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { useNewLot } from '../../components/use-new-lot.ts'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { MakerField } from './ContainerFields.tsx'

const options = bathProducts.map(({ id, agent }) => ({ value: id, label: agent }))
const tried = 3

/** A bottle of strips is tried in full and in half strength when it is opened. */
export function BottleForm() {
  const times = useTimes()
  const days = usePolicy().limit(stripBottleDays).value
  const [product, setProduct] = useState<BathProductId | ''>('')
  const [number, setNumber] = useState('')
  const [maker, setMaker] = useState('')
  const { id, lacking } = useNewLot({ of: 'strengthStrip', number, maker })
  const [expiry, setExpiry] = useState('')
  const [passed, setPassed] = useState('')
  const [failed, setFailed] = useState('')
  const [moment, setMoment] = useState<string>()
  const now = useNow(60)
  const openedAt = moment === undefined ? now : Date.parse(moment)
  const expiresAt = times.fromInput(`${expiry}T23:59`)
  const w = words.baths
  const counted = [passed, failed].every((text) => /^[0-3]?$/.test(text))
  const complete = product !== '' && id !== undefined && counted && expiresAt !== undefined
  return (
    <EntryForm
      kind="strip-bottle-opened"
      body={
        complete
          ? {
              lot: id,
              product,
              number,
              ...(maker.trim() === '' ? {} : { maker: maker.trim() }),
              expiresAt: expiresAt as Instant,
              discardAt: instant(openedAt + days * 86_400_000),
              fullStrength: { tried: passed === '' ? 0 : tried, passed: Number(passed) },
              halfStrength: { tried: failed === '' ? 0 : tried, failed: Number(failed) },
            }
          : null
      }
      action={w.openBottle}
      judged
      lacking={lacking}
      onMoment={setMoment}
      onKept={() => {
        for (const clear of [setNumber, setMaker, setExpiry, setPassed, setFailed]) clear('')
        setProduct('')
      }}
    >
      <SelectField label={w.product} value={product} options={options} onChange={setProduct} />
      <div className="pair">
        <TextField label={w.number} value={number} onChange={setNumber} />
        <MakerField value={maker} onChange={setMaker} />
        <TextField label={w.expires} type="date" value={expiry} onChange={setExpiry} />
        <TextField
          label={w.fullPassed}
          type="number"
          min={0}
          optional
          hint={w.notTried}
          value={passed}
          onChange={setPassed}
        />
        <TextField
          label={w.halfFailed}
          type="number"
          min={0}
          optional
          hint={w.notTried}
          value={failed}
          onChange={setFailed}
        />
      </div>
    </EntryForm>
  )
}
