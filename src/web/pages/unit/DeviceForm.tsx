import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField, Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { Lumens, type LumenText } from './Lumens.tsx'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

type Device = Bodies['device-registered']

export function DeviceForm({ onKept }: { readonly onKept: () => void }) {
  const named = useNameAndKey()
  const [contact, setContact] = useState<Device['contact'] | null>(null)
  const [steam, setSteam] = useState<Device['steam'] | null>(null)
  const [parts, setParts] = useState('1')
  const [lumens, setLumens] = useState<readonly LumenText[]>([])
  const [insulated, setInsulated] = useState(false)
  const [optic, setOptic] = useState(false)
  const [singleUse, setSingleUse] = useState(false)
  const [life, setLife] = useState('')
  const w = words.unit.register
  const complete = named.name !== '' && named.keyText !== '' && contact !== null && steam !== null
  return (
    <EntryForm
      kind="device-registered"
      body={
        complete
          ? {
              device: `device:${named.keyText}`,
              name: named.name,
              contact,
              steam,
              parts: Number(parts),
              lumens: lumens.map(({ diameter, length }) => ({
                diameterMm: Number(diameter),
                lengthMm: Number(length),
              })),
              insulated,
              optic,
              singleUse,
              ...(life === '' ? {} : { lifeInUses: Number(life) }),
            }
          : null
      }
      action={w.device}
      onKept={onKept}
    >
      <NameAndKey {...named} />
      <ChoiceField label={w.contact} value={contact} options={optionsOf(words.unit.contact)} onChange={setContact} />
      <ChoiceField label={w.steam} value={steam} options={optionsOf(words.unit.steam)} onChange={setSteam} />
      <Lumens lumens={lumens} onChange={setLumens} />
      <div className="choices">
        <Tick checked={insulated} onChange={setInsulated}>
          {w.insulated}
        </Tick>
        <Tick checked={optic} onChange={setOptic}>
          {w.optic}
        </Tick>
        <Tick checked={singleUse} onChange={setSingleUse}>
          {w.singleUse}
        </Tick>
      </div>
      <div className="pair">
        <TextField label={w.parts} type="number" min={1} value={parts} onChange={setParts} />
        <TextField label={w.life} type="number" min={1} optional value={life} onChange={setLife} />
      </div>
    </EntryForm>
  )
}
