import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useNavigate, useSearchParams } from 'react-router'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import type { Bodies } from '#road/kinds.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, Tick } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { useNames } from '../../components/Named.tsx'
import { Page } from '../../components/Page.tsx'
import { useKey } from '../../components/use-key.ts'
import { useLot } from '../../components/use-lot.ts'
import { useRounds } from '../../components/use-rounds.ts'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Built = Bodies['load-built']
/** Machines that use up a gas or a chemical in each cycle. */
const sterilantTypes: ReadonlySet<MachineKnown['type']> = new Set([
  'ethyleneOxideSteriliser',
  'hydrogenPeroxideSteriliser',
  'formaldehydeSteriliser',
  'peraceticProcessor',
])

type ChallengeType = NonNullable<NonNullable<Built['challenge']>['chemicalType']>

export function BuildPage() {
  const id = useKey('machine')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <Build key={row.subject} machine={row.state} />}
    </LoadedSubject>
  )
}

function Build({ machine }: { readonly machine: MachineKnown }) {
  const navigate = useNavigate()
  const [load] = useState(() => datedKey('load', subjectKey(machine.id), new Date()))
  const [program, setProgram] = useState(machine.programs[0] ?? '')
  const [search, setSearch] = useSearchParams()
  const purpose =
    optionsOf(words.machines.purposes).find((each) => each.value === search.get('purpose'))?.value ?? 'goods'
  const [rounds, setRounds] = useState<readonly SubjectId<'round'>[]>([])
  const biological = useLot('challengeBiological')
  const chemical = useLot('challengeChemical')
  const sterilant = useLot('sterilant')
  const [type, setType] = useState<ChallengeType | ''>('')
  const w = words.machines
  const challenge = {
    ...(biological.text === '' ? {} : { biologicalLot: biological.text }),
    ...(biological.id === undefined ? {} : { biologicalFromLot: biological.id }),
    ...(type === '' ? {} : { chemicalType: type }),
    ...(type === '' || chemical.id === undefined ? {} : { chemicalFromLot: chemical.id }),
  }
  const usesSterilant = sterilantTypes.has(machine.type)
  const { '1': _one, '3': _three, ...challengeTypes } = w.chemicalTypes
  return (
    <Page title={w.buildOn(machine.name)} lead={<p className="key">{subjectKey(load)}</p>}>
      <EntryForm
        kind="load-built"
        body={{
          load,
          machine: machine.id,
          program,
          purpose,
          rounds: [...rounds],
          ...(Object.keys(challenge).length === 0 ? {} : { challenge }),
          ...(usesSterilant && sterilant.id !== undefined ? { chemicalLot: sterilant.id } : {}),
        }}
        action={w.buildDo}
        // An empty load of goods is not built yet: nobody is told to stop before the first pack is in.
        judged={rounds.length > 0 || purpose !== 'goods'}
        onKept={() => void navigate(paths.load(load))}
      >
        <div className="pair">
          <SelectField
            label={w.program}
            value={program}
            options={machine.programs.map((each) => ({ value: each, label: each }))}
            onChange={setProgram}
          />
          <SelectField
            label={w.purpose}
            value={purpose}
            options={optionsOf(w.purposes)}
            onChange={(next) => setSearch({ purpose: next }, { replace: true })}
          />
        </div>
        <PackChoice chosen={rounds} onChange={setRounds} />
        {usesSterilant && <LotField label={words.lots.field.sterilant} choice={sterilant} optional />}
        <fieldset className="field">
          <legend>{w.challenge}</legend>
          <div className="pair">
            <LotField label={w.bioLot} choice={biological} optional unknown="text" />
            <SelectField
              label={w.chemType}
              optional
              value={type}
              options={optionsOf(challengeTypes)}
              onChange={setType}
            />
            {type !== '' && <LotField label={words.lots.field.challengeChemical} choice={chemical} optional />}
          </div>
        </fieldset>
      </EntryForm>
    </Page>
  )
}

interface ChoiceProps {
  readonly chosen: readonly SubjectId<'round'>[]
  readonly onChange: (chosen: readonly SubjectId<'round'>[]) => void
}

function PackChoice({ chosen, onChange }: ChoiceProps) {
  const setName = useNames('set')
  const { data: rounds = [] } = useRounds()
  const sealed = rounds.filter((row) => row.standing === 'sealed')
  return (
    <fieldset className="field">
      <legend>{words.machines.choosePacks}</legend>
      {sealed.length === 0 && <p className="soft">{words.machines.noSealed}</p>}
      <div className="choices">
        {sealed.map((row) => (
          <Tick
            key={row.subject}
            checked={chosen.includes(row.subject)}
            onChange={(on) => onChange(on ? [...chosen, row.subject] : chosen.filter((each) => each !== row.subject))}
          >
            {setName(row.state.set)} <span className="key small">{subjectKey(row.subject)}</span>
          </Tick>
        ))}
      </div>
    </fieldset>
  )
}
