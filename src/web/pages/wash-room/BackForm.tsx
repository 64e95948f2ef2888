import type { Bodies } from '#road/kinds.ts'
import type { KnownRow } from '#service/api-types.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { useState } from 'react'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { datedKey } from '../../make-key.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Because = Bodies['reprocessing-started']['because']

interface Props {
  readonly row: KnownRow<'round'>
  readonly onDone: () => void
}

/** A set that goes back without having been used begins a round of its own. */
export function BackForm({ row, onDone }: Props) {
  const [because, setBecause] = useState<Because>(becauseOf(row.standing))
  const { set } = row.state
  const round = useNewRound(set)
  const { use: _, ...reasons } = words.round.because
  return (
    <EntryForm
      kind="reprocessing-started"
      body={set === null || round === null ? null : { round, set, because, previousRound: row.subject }}
      action={words.wash.doBack}
      onKept={onDone}
    >
      <p className="soft">{words.wash.backSays}</p>
      <SelectField label={words.machines.why} value={because} options={optionsOf(reasons)} onChange={setBecause} />
    </EntryForm>
  )
}

function becauseOf(standing: string): Because {
  if (standing === 'rejected') return 'loadRejected'
  if (standing === 'damaged') return 'packDamaged'
  if (standing === 'quarantined') return 'recalled'
  return standing === 'opened' ? 'openedNotUsed' : 'expired'
}

/** The id of the next round of a set, the same as long as the form is open. */
export function useNewRound(set: SubjectId<'set'> | null): SubjectId<'round'> | null {
  const [round] = useState(() => (set === null ? null : datedKey('round', subjectKey(set), new Date())))
  return round
}
