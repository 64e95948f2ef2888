import { useState } from 'react'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

/** Calibration and service: what was found before anything was adjusted, and when it is due again. */
export function MachineCare({ machine }: { readonly machine: MachineKnown }) {
  const times = useTimes()
  const { calibration, serviced } = machine
  const w = words.baths.care
  return (
    <section className="stack">
      <h2>{w.title}</h2>
      <p className="soft">
        {calibration === null ? w.never : `${w.found[calibration.found]}, ${w.due(times.day(calibration.nextDueAt))}`}
        {serviced !== null && `. ${w.serviced}, ${w.due(times.day(serviced.nextDueAt))}`}
      </p>
      <details>
        <summary>{w.calibrated}</summary>
        <CareForm machine={machine} kind="machine-calibrated" />
      </details>
      <details>
        <summary>{w.serviced}</summary>
        <CareForm machine={machine} kind="machine-serviced" />
      </details>
    </section>
  )
}

interface FormProps {
  readonly machine: MachineKnown
  readonly kind: 'machine-calibrated' | 'machine-serviced'
}

function CareForm({ machine, kind }: FormProps) {
  const times = useTimes()
  const [what, setWhat] = useState('')
  const [due, setDue] = useState('')
  const [found, setFound] = useState<Bodies['machine-calibrated']['found'] | null>(null)
  const at = times.fromInput(`${due}T12:00`)
  const w = words.baths.care
  const said = what.length < 3 || at === undefined ? null : { machine: machine.id, what, nextDueAt: at as Instant }
  const fields = (
    <>
      <TextField label={w.what} value={what} minLength={3} onChange={setWhat} />
      <TextField label={w.nextDue} type="date" value={due} onChange={setDue} />
    </>
  )
  if (kind === 'machine-serviced') {
    return (
      <EntryForm kind={kind} body={said} action={w.serviced} onKept={() => setWhat('')}>
        {fields}
      </EntryForm>
    )
  }
  return (
    <EntryForm
      kind={kind}
      body={said === null || found === null ? null : { ...said, found }}
      action={w.calibrated}
      judged
      onKept={() => setWhat('')}
    >
      {fields}
      <ChoiceField label={w.foundAs} value={found} options={optionsOf(w.found)} onChange={setFound} />
    </EntryForm>
  )
}
