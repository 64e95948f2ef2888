import { useState } from 'react'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { RecallOutcome } from '#road/tracing/entries.ts'
import { outcomeMisfit } from '#road/tracing/outcome-fits.ts'
import { Progress } from '../../components/Progress.tsx'
import { useEntry } from '../../session/use-entry.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import type { RecallPack } from './RecallPacks.tsx'

interface Props {
  readonly pack: RecallPack
  readonly recall: SubjectId<'recall'>
  readonly name: string
  readonly closed: boolean
}

/** What was done with a pack: only the outcomes that fit where it is are offered. */
export function AccountPack({ pack, recall, name, closed }: Props) {
  const entry = useEntry('recall-accounted')
  const [outcome, setOutcome] = useState<RecallOutcome | ''>('')
  const w = words.trace
  if (pack.outcome !== null) return <strong>{outcomeText(pack.outcome)}</strong>
  if (closed) return null
  return (
    <>
      <span className="print-only">{w.recall.notAccounted}</span>
      <form
        className="row"
        aria-label={`${w.recall.accountDo}: ${name} (${subjectKey(pack.round)})`}
        onSubmit={(event) => {
          event.preventDefault()
          if (outcome !== '') void entry.send({ recall, round: pack.round, outcome })
        }}
      >
        <select
          style={{ width: 'auto', maxWidth: '15rem' }}
          aria-label={w.recall.accountOf(name)}
          required
          value={outcome}
          onChange={(event) => setOutcome(event.target.value as RecallOutcome | '')}
        >
          <option value="">{words.form.choose}</option>
          {fittingOutcomes([pack]).map((each) => (
            <option key={each} value={each}>
              {w.outcomes[each]}
            </option>
          ))}
        </select>
        <button
          type="submit"
          aria-label={`${w.recall.accountDo}: ${name}`}
          disabled={entry.by === null || entry.progress.at === 'sending'}
        >
          {w.recall.accountDo}
        </button>
        <Progress progress={entry.progress} />
      </form>
    </>
  )
}

/** The outcomes that fit every one of these packs, by the same rule that judges the entry. */
export function fittingOutcomes(packs: readonly RecallPack[]): readonly RecallOutcome[] {
  return optionsOf(words.trace.outcomes)
    .map(({ value }) => value)
    .filter((outcome) => packs.every((pack) => outcomeMisfit(pack, outcome) === undefined))
}

export function outcomeText(outcome: string): string {
  const table: Readonly<Record<string, string>> = words.trace.outcomes
  return table[outcome] ?? outcome
}
