import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Cause = Bodies['cycle-cancelled']['cause']

/** A cycle that did not run to its end: said, or asked for. */
export function CancelledCycle({ load }: { readonly load: LoadKnown }) {
  const w = words.gas
  const [cause, setCause] = useState<Cause>('moisture')
  const { cancelled } = load.gas
  if (cancelled !== null) {
    return (
      <p>
        <strong>{w.cancelled(w.causes[cancelled.cause])}</strong>
      </p>
    )
  }
  return (
    <details>
      <summary>{w.cancelTitle}</summary>
      <EntryForm kind="cycle-cancelled" body={{ load: load.id, cause }} action={w.cancel}>
        <SelectField label={w.cause} value={cause} options={optionsOf(w.causes)} onChange={setCause} />
      </EntryForm>
    </details>
  )
}
