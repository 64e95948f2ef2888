import { useState } from 'react'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField, Tick } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

/** Out of service, repaired, and back: the way back is a decision that the rules judge. */
export function MachineService({ machine }: { readonly machine: MachineKnown }) {
  const [why, setWhy] = useState('')
  const [what, setWhat] = useState('')
  const [major, setMajor] = useState(false)
  const out = machine.service.state === 'withdrawn'
  const w = words.machines
  const reason = <TextField label={w.whyOut} value={why} minLength={3} onChange={setWhy} />
  return (
    <section className="stack">
      <h2>{w.service}</h2>
      <details open={out}>
        <summary>{out ? w.giveBack : w.withdraw}</summary>
        {out ? (
          <EntryForm
            key="machine-returned"
            kind="machine-returned"
            body={why.length < 3 ? null : { machine: machine.id, why }}
            action={w.giveBack}
            judged
          >
            {reason}
          </EntryForm>
        ) : (
          <EntryForm
            key="machine-withdrawn"
            kind="machine-withdrawn"
            body={why.length < 3 ? null : { machine: machine.id, why }}
            action={w.withdraw}
          >
            {reason}
          </EntryForm>
        )}
      </details>
      <details>
        <summary>{w.repaired}</summary>
        <EntryForm
          kind="machine-repaired"
          body={what.length < 3 ? null : { machine: machine.id, what, major }}
          action={w.repaired}
        >
          <TextField label={w.whatRepaired} value={what} minLength={3} onChange={setWhat} />
          <Tick checked={major} onChange={setMajor}>
            {w.major}
          </Tick>
        </EntryForm>
      </details>
    </section>
  )
}
