import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

interface Props {
  /** As a `datetime-local` field holds it. */
  readonly value: string
  readonly onChange: (value: string) => void
}

/** When a borrowed set is needed: by a booked case, whose time is taken over, or by a time of its own. */
export function NeededAt({ value, onChange }: Props) {
  const cases = useQuery(knownQuery('case', ['booked'])).data ?? []
  const times = useTimes()
  const [chosen, setChosen] = useState('')
  const w = words.loans
  return (
    <div className="pair">
      {cases.length > 0 && (
        <SelectField
          label={w.forCase}
          value={chosen}
          optional
          empty={w.otherTime}
          options={cases.map((row) => ({ value: row.subject as string, label: subjectKey(row.subject) }))}
          onChange={(next) => {
            setChosen(next)
            const booked = cases.find((row) => row.subject === next)?.state.booked
            if (booked) onChange(times.toInput(booked.plannedAt))
          }}
        />
      )}
      <TextField label={w.neededAt} type="datetime-local" value={value} onChange={onChange} />
    </div>
  )
}
