import { useState } from 'react'
import type { RoundKnown } from '#road/round.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { SelectField } from '../../components/Fields.tsx'
import { useNames } from '../../components/Named.tsx'
import { useRounds } from '../../components/use-rounds.ts'
import { words } from '../../words/words.ts'
import { ConditionForm } from './ConditionForm.tsx'

/**
 * What a pack looks like, wherever it is found torn or wet: before its load, when the steriliser is unloaded, before it is
 * put on the shelf. Where there are several, the pack is chosen first.
 */
export function NoteCondition({ rounds }: { readonly rounds: readonly SubjectId<'round'>[] }) {
  const { data = [] } = useRounds()
  const setName = useNames('set')
  const [chosen, setChosen] = useState<SubjectId<'round'> | ''>('')
  const [kept, setKept] = useState(0)
  const here = data.filter(({ subject, state }) => rounds.includes(subject) && isWholePack(state))
  const [only] = here
  const round = here.length === 1 ? only?.subject : here.find(({ subject }) => subject === chosen)?.subject
  const w = words.theatre.shelf
  return (
    <div className="stack no-print">
      {here.length > 0 && (
        <details>
          <summary>{w.noteFound}</summary>
          {here.length > 1 && (
            <SelectField
              label={w.pack}
              value={chosen}
              options={here.map(({ subject, state }) => ({
                value: subject,
                label: `${setName(state.set)} ${subjectKey(subject)}`,
              }))}
              onChange={setChosen}
            />
          )}
          {round !== undefined && (
            <ConditionForm
              key={round}
              round={round}
              onDone={() => {
                setChosen('')
                setKept((before) => before + 1)
              }}
            />
          )}
        </details>
      )}
      {/* Outside: the last pack may be known as damaged, and the form be gone, before its entry is said to be kept. */}
      {kept > 0 && <output className="told">{w.conditionKept}</output>}
    </div>
  )
}

/** A pack that is closed, and of which nothing is noted that bars it already. */
function isWholePack({ sealed, opened, damage }: RoundKnown): boolean {
  return sealed !== null && opened === null && damage === null
}
