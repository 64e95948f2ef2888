import { useEffect, useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { celsiusOf } from '../../components/celsius-of.ts'
import { TextField } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { useLot } from '../../components/use-lot.ts'
import { words } from '../../words/words.ts'

type Detergent = Bodies['wash-recorded']['detergent']

/** The detergent of a wash as it was used: its lot, its dilution and its temperature, as far as they are known. */
export function DetergentFields({ onChange }: { readonly onChange: (detergent: Detergent) => void }) {
  const { id: lot, ...choice } = useLot('detergent')
  const [dilution, setDilution] = useState('')
  const [celsius, setCelsius] = useState('')
  useEffect(() => {
    const temperatureC = celsiusOf(celsius)
    const known = {
      ...(lot === undefined ? {} : { lot }),
      ...(Number(dilution) > 0 ? { dilutionMlPerLitre: Number(dilution) } : {}),
      ...(temperatureC === undefined ? {} : { temperatureC }),
    }
    onChange(Object.keys(known).length === 0 ? undefined : known)
  }, [onChange, lot, dilution, celsius])
  const w = words.lots.field
  return (
    <div className="pair">
      <LotField label={w.detergent} choice={{ ...choice, id: lot }} optional />
      <TextField label={w.dilution} type="number" min={0} step="any" optional value={dilution} onChange={setDilution} />
      <TextField label={w.solution} type="number" step="any" optional value={celsius} onChange={setCelsius} />
    </div>
  )
}
