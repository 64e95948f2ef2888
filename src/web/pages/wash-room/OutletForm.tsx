import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { useLot } from '../../components/use-lot.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { NameAndKey } from '../unit/NameAndKey.tsx'
import { useNameAndKey } from '../unit/use-name-and-key.ts'

type Outlet = Bodies['outlet-registered']

/** A tap or a pipe that water is taken from. */
export function OutletForm() {
  const w = words.water
  const named = useNameAndKey()
  const [use, setUse] = useState<Outlet['use']>('finalRinse')
  const [treatment, setTreatment] = useState<Outlet['treatment']>('reverseOsmosis')
  const filter = useLot('outletFilter')
  const complete = named.name !== '' && named.keyText !== ''
  return (
    <EntryForm
      kind="outlet-registered"
      body={
        complete
          ? {
              outlet: `outlet:${named.keyText}`,
              name: named.name,
              use,
              treatment,
              ...(filter.row === undefined ? {} : { filterLot: filter.text, filterFromLot: filter.row.subject }),
            }
          : null
      }
      action={w.register}
    >
      <NameAndKey {...named} />
      <div className="pair">
        <SelectField label={w.use} value={use} options={optionsOf(w.uses)} onChange={setUse} />
        <SelectField label={w.treatment} value={treatment} options={optionsOf(w.treatments)} onChange={setTreatment} />
      </div>
      <LotField label={words.lots.field.filter} choice={filter} optional />
    </EntryForm>
  )
}
