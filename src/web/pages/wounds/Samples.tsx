import { useQueries } from '@tanstack/react-query'
import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import type { InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import type { SampleKnown } from '#road/wounds/investigation/sample-fold.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { datedKey } from '../../make-key.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { parts } from './parts.ts'
import { cultureBody, CultureFields, useCulture } from './CultureFields.tsx'
import { useSampled } from './use-sampled.ts'

type Taken = Bodies['sample-taken']
type Read = Bodies['sample-read']

/** What was sampled in the unit, and what grew: it stands beside the suspects. */
export function Samples({ investigation }: { readonly investigation: InvestigationKnown }) {
  const w = words.wounds.investigation
  const samples = useQueries({ queries: investigation.samples.map((id) => subjectQuery(id)) })
  return (
    <section className="stack" id={parts.samples}>
      <h2>{w.samples}</h2>
      <ul className="lines">
        {samples.flatMap(({ data }) =>
          data === undefined ? [] : [<SampleLine key={data.subject} sample={data.state} />],
        )}
      </ul>
      <details className="no-print">
        <summary>{w.sampleTake}</summary>
        <TakeForm id={investigation.id} />
      </details>
    </section>
  )
}

function SampleLine({ sample }: { readonly sample: SampleKnown }) {
  const times = useTimes()
  const w = words.wounds.investigation
  const { taken, read } = sample
  if (taken === null) return null
  return (
    <li>
      <div className="grow">
        {times.day(taken.at)}: {w.places[taken.place]}, {taken.where}
        <div className="small">
          {read === null
            ? w.waiting
            : [
                words.theatre.cultures[read.culture],
                read.organism,
                read.acidFast === 'positive' ? words.theatre.wound.acidFast : undefined,
                w.sames[read.sameAsWounds],
              ]
                .filter((part) => part !== undefined)
                .join(', ')}
        </div>
        <details className="no-print">
          <summary>{w.sampleRead}</summary>
          <ReadForm id={sample.id} />
        </details>
      </div>
    </li>
  )
}

function TakeForm({ id }: { readonly id: SubjectId<'investigation'> }) {
  const w = words.wounds.investigation
  const [sample, setSample] = useState(() => datedKey('sample', 'sample', new Date()))
  const [place, setPlace] = useState<Taken['place'] | ''>('')
  const [where, setWhere] = useState('')
  const [from, setFrom] = useState<NonNullable<Taken['from']> | ''>('')
  const sampled = useSampled()
  const [lookingFor, setLookingFor] = useState<Taken['lookingFor']>('mycobacteria')
  const complete = place !== '' && where.length > 1
  return (
    <EntryForm
      kind="sample-taken"
      body={
        complete
          ? {
              sample,
              place,
              where,
              lookingFor,
              investigation: id,
              ...(from === '' ? {} : { from }),
            }
          : null
      }
      action={w.takeDo}
      onKept={() => {
        setSample(datedKey('sample', 'sample', new Date()))
        setWhere('')
      }}
    >
      <SelectField label={w.place} value={place} options={optionsOf(w.places)} onChange={setPlace} />
      <TextField label={w.where} value={where} minLength={2} onChange={setWhere} />
      <SelectField label={w.from} optional value={from} options={sampled} onChange={setFrom} />
      <ChoiceField label={w.lookingFor} value={lookingFor} options={optionsOf(w.looking)} onChange={setLookingFor} />
    </EntryForm>
  )
}

function ReadForm({ id }: { readonly id: SubjectId<'sample'> }) {
  const w = words.wounds.investigation
  const [told, setTold] = useCulture(null)
  const [sameAsWounds, setSame] = useState<Read['sameAsWounds']>('notCompared')
  const culture = cultureBody(told)
  const body = culture === null ? null : { sample: id, ...culture, sameAsWounds }
  return (
    <EntryForm kind="sample-read" body={body} action={w.readDo}>
      <CultureFields value={told} onChange={setTold} />
      <ChoiceField label={w.same} value={sameAsWounds} options={optionsOf(w.sames)} onChange={setSame} />
    </EntryForm>
  )
}
