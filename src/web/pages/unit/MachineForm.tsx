import { useState } from 'react'
import type { LumenClaim } from '#road/catalogue/route/claims.ts'
import type { Bodies } from '#road/kinds.ts'
import type { GasProgram } from '#workings/gas/gas-program.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { ClaimsOfMachine } from './ClaimsOfMachine.tsx'
import { gasMethodOf, ProgramWindows } from './ProgramWindows.tsx'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

type Machine = Bodies['machine-registered']

export function MachineForm({ onKept }: { readonly onKept: () => void }) {
  const named = useNameAndKey()
  const [type, setType] = useState<Machine['type']>('steamSteriliser')
  const [airRemoval, setAirRemoval] = useState<Machine['airRemoval']>('dynamic')
  const [litres, setLitres] = useState('')
  const [programs, setPrograms] = useState('')
  const [claims, setClaims] = useState<readonly LumenClaim[]>([])
  const [windows, setWindows] = useState<Readonly<Record<string, GasProgram | undefined>>>({})
  const list = programs
    .split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '')
  const [first, ...others] = list
  const gas = gasMethodOf(type)
  const inForce = Object.fromEntries(
    list.flatMap((name) =>
      windows[name]?.method === gas && windows[name] !== undefined ? [[name, windows[name]]] : [],
    ),
  )
  const w = words.unit.register
  const complete = named.name !== '' && named.keyText !== '' && Number(litres) > 0 && first !== undefined
  return (
    <EntryForm
      kind="machine-registered"
      body={
        complete
          ? {
              machine: `machine:${named.keyText}`,
              name: named.name,
              type,
              airRemoval,
              chamberLitres: Number(litres),
              programs: [first, ...others],
              ...(type === 'hydrogenPeroxideSteriliser' && claims.length > 0 ? { lumenClaims: [...claims] } : {}),
              ...(gas === undefined || Object.keys(inForce).length === 0 ? {} : { windows: inForce }),
            }
          : null
      }
      action={w.machine}
      onKept={onKept}
    >
      <NameAndKey {...named} />
      <ChoiceField
        label={w.type}
        value={type}
        options={optionsOf(words.unit.machineTypes)}
        onChange={(next) => {
          setType(next)
          setAirRemoval(next === 'steamSteriliser' ? 'dynamic' : 'none')
        }}
      />
      <ChoiceField
        label={w.airRemoval}
        value={airRemoval}
        options={optionsOf(words.unit.airRemoval)}
        onChange={setAirRemoval}
      />
      <div className="pair">
        <TextField label={w.litres} type="number" min={1} step="any" value={litres} onChange={setLitres} />
        <TextField label={w.programs} hint={w.programsHint} value={programs} onChange={setPrograms} />
      </div>
      {gas !== undefined && (
        <ProgramWindows
          method={gas}
          programs={list}
          onChange={(name, program) => setWindows({ ...windows, [name]: program })}
        />
      )}
      {type === 'hydrogenPeroxideSteriliser' && <ClaimsOfMachine claims={claims} onChange={setClaims} />}
    </EntryForm>
  )
}
