import { useState } from 'react'
import type { SetKnown } from '#road/catalogue/fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { EntryTable } from '../../components/EntryTable.tsx'
import { Tick } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** From whom a set is borrowed and until when, what was found on it, and its way back. */
export function LoanPart({ set }: { readonly set: SetKnown }) {
  const times = useTimes()
  const [decontaminated, setDecontaminated] = useState(false)
  const [complete, setComplete] = useState(false)
  const { loan } = set
  if (loan === null) return null
  const w = words.loans
  return (
    <section className="stack" aria-label={w.loan}>
      <h2>{w.loan}</h2>
      <dl className="facts">
        <dt>{w.from}</dt>
        <dd>{loan.lender}</dd>
        <dt>{w.arrived}</dt>
        <dd>{times.moment(loan.arrivedAt)}</dd>
        <dt>{w.neededAt}</dt>
        <dd>{times.moment(loan.neededAt)}</dd>
        <dt>{w.dueBack}</dt>
        <dd>{times.moment(loan.dueBack)}</dd>
        <dt>{w.returned}</dt>
        <dd>{loan.returnedAt === null ? w.notYet : times.moment(loan.returnedAt)}</dd>
      </dl>
      {loan.returnedAt === null && (
        <EntryForm kind="loan-returned" body={{ set: set.id, decontaminated, complete }} action={w.giveBack} judged>
          <Tick checked={decontaminated} onChange={setDecontaminated}>
            {w.decontaminated}
          </Tick>
          <Tick checked={complete} onChange={setComplete}>
            {w.complete}
          </Tick>
        </EntryForm>
      )}
      <EntryTable of={set.id} />
    </section>
  )
}
