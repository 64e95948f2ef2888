import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField, Tick } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

export function SpillForm({ bath }: { readonly bath: BathKnown }) {
  const { data: people = [] } = useQuery(knownQuery('person', ['active']))
  const [litres, setLitres] = useState('')
  const [place, setPlace] = useState(bath.place)
  const [neutraliser, setNeutraliser] = useState('')
  const [done, setDone] = useState('')
  const [protection, setProtection] = useState('')
  const [exposed, setExposed] = useState<readonly SubjectId<'person'>[]>([])
  const [care, setCare] = useState('')
  const w = words.baths
  const s = words.safety.spills
  const complete = Number(litres) > 0 && done.length >= 3 && place !== ''
  const careGiven = exposed.length > 0 && care.length >= 3 ? { care } : {}
  return (
    <EntryForm
      kind="spill-recorded"
      body={
        complete
          ? {
              bath: bath.id,
              litres: Number(litres),
              place,
              neutraliser,
              done,
              exposed: [...exposed],
              protection,
              ...careGiven,
            }
          : null
      }
      action={w.spill}
      judged
    >
      <div className="pair">
        <TextField label={w.litres} type="number" min={0} step="any" value={litres} onChange={setLitres} />
        <TextField label={s.place} value={place} onChange={setPlace} />
        <TextField label={w.neutraliser} value={neutraliser} optional onChange={setNeutraliser} />
        <TextField label={w.protection} value={protection} optional onChange={setProtection} />
      </div>
      <TextField label={w.spillDone} value={done} minLength={3} long onChange={setDone} />
      <fieldset className="field">
        <legend>{s.who}</legend>
        <div className="choices">
          {people.map((row) => (
            <Tick
              key={row.subject}
              checked={exposed.includes(row.subject)}
              onChange={(on) =>
                setExposed(on ? [...exposed, row.subject] : exposed.filter((each) => each !== row.subject))
              }
            >
              {row.state.name}
            </Tick>
          ))}
        </div>
      </fieldset>
      {exposed.length > 0 && <TextField label={s.care} value={care} minLength={3} long optional onChange={setCare} />}
    </EntryForm>
  )
}
