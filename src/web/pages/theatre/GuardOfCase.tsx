import { useState } from 'react'
import { type Prevention, preventions } from '#road/operating/prevention-entries.ts'
import { Antibiotic, antibiotics } from '#road/operating/antibiotics.ts'
import type { CaseKnown } from '#road/operating/fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { Findings } from '../../components/Findings.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { useEntry } from '../../session/use-entry.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { decisionBody, DecisionFields, undecided, useImplantFinding } from './ImplantDecision.tsx'

interface Props {
  readonly of: CaseKnown
}

/** What guards the wound of a case: the measures, the doses of the antibiotic, and an implant that somebody decided. */
export function GuardOfCase({ of }: Props) {
  const w = words.theatre.guard
  const finding = useImplantFinding(of.booked?.category, of.booked?.implantPlanned ?? false)
  const open = finding !== undefined && of.implantDecision === null
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{w.lead}</p>
      <ul className="lines">
        {preventions.map((measure) => (
          <Measure key={measure} of={of} measure={measure} />
        ))}
      </ul>
      <Doses of={of} />
      {open && finding !== undefined && <Findings findings={[finding]} />}
      <details open={open || undefined}>
        <summary>{w.decide}</summary>
        <DecideForm of={of} />
      </details>
      {of.implantDecision !== null && (
        <p>
          {w.outcomes[of.implantDecision.outcome]}: {of.implantDecision.why}
        </p>
      )}
    </section>
  )
}

const answers = ['done', 'notDone', 'notApplicable'] as const

/** One tap keeps one answer; another tap on another answer keeps that one instead. */
function Measure({ of, measure }: Props & { readonly measure: Prevention }) {
  const entry = useEntry('prevention-noted')
  const w = words.theatre.guard
  const name = words.wounds.preventions[measure]
  const said = of.prevention?.measures[measure]
  return (
    <li>
      <div className="grow" style={{ flexBasis: '18rem' }}>
        {name}
        <div className="small">{said === undefined ? w.unknown : w.answers[said]}</div>
      </div>
      <fieldset className="field row" style={{ flexDirection: 'row', maxWidth: '100%' }} aria-label={name}>
        {answers.map((answer) => (
          <button
            key={answer}
            type="button"
            aria-pressed={said === answer}
            disabled={entry.progress.at === 'sending'}
            onClick={() => void entry.send({ case: of.id, measures: { [measure]: answer } })}
          >
            {w.answers[answer]}
          </button>
        ))}
      </fieldset>
    </li>
  )
}

function Doses({ of }: Props) {
  const times = useTimes()
  const w = words.theatre.guard
  return (
    <>
      {of.doses.length > 0 && (
        <ul className="lines" aria-label={w.doses}>
          {of.doses.map((dose) => (
            <li key={dose.entry}>
              {times.moment(dose.at)}: {dose.drug === 'other' ? (dose.name ?? w.other) : antibiotics[dose.drug].name}
              {dose.doseMg !== undefined && `, ${dose.doseMg} mg`}
            </li>
          ))}
        </ul>
      )}
      <details>
        <summary>{of.doses.length === 0 ? w.firstDose : w.furtherDose}</summary>
        <DoseForm key={of.doses.length} of={of} />
      </details>
    </>
  )
}

function DoseForm({ of }: Props) {
  const w = words.theatre.guard
  const [drug, setDrug] = useState<Antibiotic | 'other' | ''>(of.doses.at(-1)?.drug ?? '')
  const [name, setName] = useState('')
  const [mg, setMg] = useState('')
  const options = [
    ...Antibiotic.options.map((value) => ({ value, label: antibiotics[value].name })),
    { value: 'other' as const, label: w.other },
  ]
  const complete = drug !== '' && (drug !== 'other' || name.length > 1) && (mg === '' || Number(mg) > 0)
  return (
    <EntryForm
      kind="antibiotic-given"
      body={
        complete
          ? {
              case: of.id,
              drug,
              ...(drug === 'other' ? { name } : {}),
              ...(mg === '' ? {} : { doseMg: Number(mg) }),
            }
          : null
      }
      action={w.doseDo}
    >
      <div className="pair">
        <SelectField label={w.drug} value={drug} options={options} onChange={setDrug} />
        <TextField label={w.doseMg} type="number" min={1} step="any" optional value={mg} onChange={setMg} />
      </div>
      {drug === 'other' && <TextField label={w.drugName} value={name} minLength={2} onChange={setName} />}
    </EntryForm>
  )
}

function DecideForm({ of }: Props) {
  const [decision, setDecision] = useState(undecided)
  const body = decisionBody(decision)
  return (
    <EntryForm
      kind="implant-decided"
      judged
      body={body === null ? null : { case: of.id, ...body }}
      action={words.theatre.guard.decideDo}
    >
      <DecisionFields value={decision} onChange={setDecision} />
    </EntryForm>
  )
}
