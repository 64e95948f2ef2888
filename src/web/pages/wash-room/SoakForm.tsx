import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { Celsius } from '#units/quantities.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly round: SubjectId<'round'>
  readonly onDone: () => void
}

export function SoakForm({ round, onDone }: Props) {
  const [solution, setSolution] = useState<Bodies['soak-started']['solution']>('enzymatic')
  const [water, setWater] = useState('')
  const waterC = Celsius.safeParse(Number(water)).data
  return (
    <EntryForm
      kind="soak-started"
      body={{ round, solution, ...(water === '' || waterC === undefined ? {} : { waterC }) }}
      action={words.wash.startSoak}
      onKept={onDone}
    >
      <ChoiceField
        label={words.wash.solution}
        value={solution}
        options={optionsOf(words.wash.solutions)}
        onChange={setSolution}
      />
      <TextField label={words.wash.water} type="number" step="any" optional value={water} onChange={setWater} />
    </EntryForm>
  )
}
