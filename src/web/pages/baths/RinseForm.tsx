import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { RinseWater } from '#road/baths/entries.ts'
import type { ImmersionKnown } from '#road/baths/immersion-fold.ts'
import { rinseLitres, rinseMinutes } from '#road/baths/limits.ts'
import { knownQuery } from '../../api/queries.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField, Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

/** One rinse; what stays the same from one to the next stays filled in. */
export function RinseForm({ immersion }: { readonly immersion: ImmersionKnown }) {
  const policy = usePolicy()
  const [water, setWater] = useState<RinseWater | null>(null)
  const [outlet, setOutlet] = useState('')
  const { data: outlets = [] } = useQuery(knownQuery('outlet'))
  const named = outlets.find((row) => [row.state.name.toLowerCase(), row.subject].includes(outlet.trim().toLowerCase()))
  const [minutes, setMinutes] = useState(String(policy.limit(rinseMinutes).value))
  const [litres, setLitres] = useState(String(policy.limit(rinseLitres).value))
  const [lumenMl, setLumenMl] = useState('')
  const [alcoholAndAir, setAlcohol] = useState(false)
  const w = words.baths
  const complete = water !== null && outlet !== '' && Number(minutes) > 0 && Number(litres) > 0
  return (
    <EntryForm
      kind="bath-rinsed"
      body={
        complete
          ? {
              immersion: immersion.id,
              water,
              outlet: named?.subject ?? outlet,
              minutes: Number(minutes),
              litres: Number(litres),
              lumenMillilitres: lumenMl === '' ? null : Number(lumenMl),
              alcoholAndAir,
            }
          : null
      }
      action={w.rinse}
      judged
    >
      <ChoiceField label={w.water} value={water} options={optionsOf(w.waters)} onChange={setWater} />
      <div className="pair">
        <TextField
          label={w.outlet}
          value={outlet}
          list={outlets.map((row) => row.state.name)}
          hint={outlet === '' || named !== undefined ? undefined : w.outletUnknown}
          onChange={setOutlet}
        />
        <TextField label={w.minutes} type="number" min={0} step="any" value={minutes} onChange={setMinutes} />
        <TextField label={w.litres} type="number" min={0} step="any" value={litres} onChange={setLitres} />
        <TextField label={w.lumenMl} type="number" min={0} optional value={lumenMl} onChange={setLumenMl} />
      </div>
      <Tick checked={alcoholAndAir} onChange={setAlcohol}>
        {w.alcohol}
      </Tick>
    </EntryForm>
  )
}
