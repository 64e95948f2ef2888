import type { KnownRow } from '#service/api-types.ts'
import { PatientOfSet } from '../../components/PatientNoted.tsx'
import { useNames } from '../../components/Named.tsx'
import { words } from '../../words/words.ts'
import { BackForm } from './BackForm.tsx'
import { CleaningTestForm } from './CleaningTestForm.tsx'
import { FaultyItems } from './FaultyItems.tsx'
import { InspectForm } from './InspectForm.tsx'
import { SoakForm } from './SoakForm.tsx'
import { StepCard } from './StepCard.tsx'
import { TestsOf } from './TestsOf.tsx'
import { WashForm } from './WashForm.tsx'

interface Props {
  readonly row: KnownRow<'round'>
  readonly rounds: readonly KnownRow<'round'>[]
  readonly onDone: () => void
}

/** The set in hand: what is to be done with it now, with its step card beside. */
export function Bench({ row, rounds, onDone }: Props) {
  const name = useNames('set')(row.state.set)
  const next = row.standing === 'sentBack' ? row.state.inspection?.next : undefined
  const { title, form } = formFor({ row, rounds, onDone }, name)
  return (
    <section className="sheet halves" aria-label={title}>
      <div className="stack">
        <h2>{title}</h2>
        <PatientOfSet of={row.state.began?.case} />
        {form}
        {(next === 'repair' || next === 'retire') && row.state.set !== null && (
          <FaultyItems set={row.state.set} next={next} />
        )}
        {row.standing === 'washed' && <TestsOf round={row.state} />}
        {row.standing === 'washed' && (
          <CleaningTestForm round={row.subject} wash={row.state.wash?.id} set={row.state.set} />
        )}
      </div>
      {row.state.set !== null && <StepCard set={row.state.set} />}
    </section>
  )
}

function formFor({ row, rounds, onDone }: Props, name: string) {
  switch (row.standing) {
    case 'used':
      return { title: words.wash.soakOf(name), form: <SoakForm row={row} onDone={onDone} /> }
    case 'soaking':
    case 'sentBack':
      return { title: words.wash.washOf, form: <WashForm first={row.subject} rounds={rounds} onDone={onDone} /> }
    case 'washed':
      return { title: words.wash.inspectOf(name), form: <InspectForm round={row.subject} onDone={onDone} /> }
    default:
      return { title: `${words.wash.doBack}: ${name}`, form: <BackForm row={row} onDone={onDone} /> }
  }
}
