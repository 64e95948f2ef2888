import { useState } from 'react'
import { useNavigate } from 'react-router'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import type { Bodies } from '#road/kinds.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { useAskedRecall } from '../../components/use-asked-recall.ts'
import { paths } from '../../paths.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { ContainerFields } from './ContainerFields.tsx'
import { CorrectBath } from './CorrectBath.tsx'
import { SpillForm } from './SpillForm.tsx'
import { useContainer } from './use-container.ts'

/** Topping up, discarding, recalling and spills: what happens to a bath besides its use. */
export function BathCare({ bath, standing }: { readonly bath: BathKnown; readonly standing: string }) {
  const asked = useAskedRecall()
  const w = words.baths
  return (
    <section className="stack no-print">
      {standing === 'inUse' && (
        <details>
          <summary>{w.topUp}</summary>
          <TopUpForm bath={bath} />
        </details>
      )}
      {standing !== 'discarded' && (
        <details open={standing === 'failedStrip'}>
          <summary>{w.discard}</summary>
          <DiscardForm bath={bath} />
        </details>
      )}
      <CorrectBath bath={bath} />
      <details open={asked !== null}>
        <summary>{w.recall}</summary>
        <RecallForm bath={bath} />
      </details>
      <details>
        <summary>{w.spill}</summary>
        <SpillForm bath={bath} />
      </details>
    </section>
  )
}

function TopUpForm({ bath }: { readonly bath: BathKnown }) {
  const [litres, setLitres] = useState('')
  const container = useContainer()
  const { lot, printed } = container
  const w = words.baths
  return (
    <EntryForm
      kind="bath-topped-up"
      body={Number(litres) > 0 && lot !== undefined ? { bath: bath.id, litres: Number(litres), lot, ...printed } : null}
      action={w.topUp}
      judged
      lacking={container.lacking}
      onKept={() => setLitres('')}
    >
      <p className="soft">{w.topUpSays}</p>
      <TextField label={w.litres} type="number" min={0} step="any" value={litres} onChange={setLitres} />
      <ContainerFields of={container} />
    </EntryForm>
  )
}

function DiscardForm({ bath }: { readonly bath: BathKnown }) {
  const [why, setWhy] = useState<Bodies['bath-retired']['why'] | ''>('')
  const [neutraliser, setNeutraliser] = useState('')
  const [disposal, setDisposal] = useState('')
  const [drainedTo, setDrainedTo] = useState<keyof typeof words.safety.disposal.drains | null>(null)
  const w = words.baths
  const complete = why !== '' && disposal.length >= 3 && drainedTo !== null
  return (
    <EntryForm
      kind="bath-retired"
      body={complete ? { bath: bath.id, why, neutraliser, disposal, drainedTo } : null}
      action={w.discard}
      judged
    >
      <SelectField label={w.why} value={why} options={optionsOf(w.whyRetired)} onChange={setWhy} />
      <TextField label={w.neutraliser} value={neutraliser} optional onChange={setNeutraliser} />
      <ChoiceField
        label={words.safety.disposal.drainedTo}
        value={drainedTo}
        options={optionsOf(words.safety.disposal.drains)}
        onChange={setDrainedTo}
      />
      <TextField label={w.disposal} value={disposal} minLength={3} onChange={setDisposal} />
    </EntryForm>
  )
}

function RecallForm({ bath }: { readonly bath: BathKnown }) {
  const navigate = useNavigate()
  const [why, setWhy] = useState(useAskedRecall() ?? '')
  const [wholeBath, setWhole] = useState(false)
  const recall: SubjectId<'recall'> = `recall:${subjectKey(bath.id)}`
  const w = words.baths
  return (
    <EntryForm
      kind="bath-recalled"
      body={why.length < 5 ? null : { recall, bath: bath.id, why, wholeBath }}
      action={w.recall}
      onKept={() => void navigate(paths.recall(recall))}
    >
      <p className="soft">{w.recallSays}</p>
      <TextField label={w.why} value={why} minLength={5} long onChange={setWhy} />
      <Tick checked={wholeBath} onChange={setWhole}>
        {w.wholeBath}
      </Tick>
    </EntryForm>
  )
}
