import { useState } from 'react'
import { useSearchParams } from 'react-router'
import type { LumenClaim } from '#road/catalogue/route/claims.ts'
import type { EntryId } from '#road/entry.ts'
import type { Bodies } from '#road/kinds.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { subjectKey } from '#road/subject.ts'
import type { GasProgram } from '#workings/gas/gas-program.ts'
import { Changed } from '../../components/Changed.tsx'
import { EntryForm, type OnKept } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { ClaimsOfMachine } from './ClaimsOfMachine.tsx'
import { gasMethodOf, ProgramWindows } from './ProgramWindows.tsx'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

type Machine = Bodies['machine-registered']

interface Props {
  readonly onKept: OnKept
}

/** A new machine, or the registration of one corrected. */
export function MachineForm({ onKept }: Props) {
  return (
    <Changed of="machine" kind="machine-registered">
      {(row, corrects) => (
        <Fields key={row?.subject ?? ''} initial={row?.state ?? null} corrects={corrects} onKept={onKept} />
      )}
    </Changed>
  )
}

interface FieldsProps extends Props {
  readonly initial: MachineKnown | null
  readonly corrects: EntryId | undefined
}

function Fields({ initial, corrects, onKept }: FieldsProps) {
  const [search] = useSearchParams()
  const asked: Machine['type'] = search.get('type') === 'washer' ? 'washer' : 'steamSteriliser'
  const named = useNameAndKey(initial?.name, initial === null ? null : subjectKey(initial.id))
  const [type, setType] = useState<Machine['type']>(initial?.type ?? asked)
  const [airRemoval, setAirRemoval] = useState(initial?.airRemoval ?? airRemovalOf(type))
  const [litres, setLitres] = useState(String(initial?.chamberLitres ?? ''))
  const [programs, setPrograms] = useState(initial?.programs.join(', ') ?? '')
  const [claims, setClaims] = useState<readonly LumenClaim[]>(initial?.lumenClaims ?? [])
  const [windows, setWindows] = useState<Readonly<Record<string, GasProgram | undefined>>>(initial?.windows ?? {})
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
              ...keptOf(initial),
              ...(type === 'hydrogenPeroxideSteriliser' && claims.length > 0 ? { lumenClaims: [...claims] } : {}),
              ...(gas === undefined || Object.keys(inForce).length === 0 ? {} : { windows: inForce }),
            }
          : null
      }
      action={corrects === undefined ? w.machine : w.changeOne}
      {...(corrects === undefined ? {} : { corrects })}
      onKept={onKept}
    >
      <NameAndKey {...named} />
      <ChoiceField
        label={w.type}
        value={type}
        options={optionsOf(words.unit.machineTypes)}
        onChange={(next) => {
          setType(next)
          setAirRemoval(airRemovalOf(next))
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
          registered={windows}
          onChange={(name, program) => setWindows({ ...windows, [name]: program })}
        />
      )}
      {type === 'hydrogenPeroxideSteriliser' && <ClaimsOfMachine claims={claims} onChange={setClaims} />}
    </EntryForm>
  )
}

function airRemovalOf(type: Machine['type']): Machine['airRemoval'] {
  return type === 'steamSteriliser' ? 'dynamic' : 'none'
}

/** What this form does not ask for and a correction must not lose. */
function keptOf(initial: MachineKnown | null): Partial<Machine> {
  if (initial === null) return {}
  const { independentRecord, logMap } = initial
  return {
    ...(independentRecord === undefined ? {} : { independentRecord }),
    ...(logMap === null ? {} : { logMap }),
  }
}
