import { useState } from 'react'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { RecallOutcome } from '#road/tracing/entries.ts'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { type Sent, useEntries } from '../../session/use-entries.ts'
import { words } from '../../words/words.ts'
import { fittingOutcomes } from './AccountPack.tsx'
import type { RecallPack } from './RecallPacks.tsx'

interface Props {
  readonly recall: SubjectId<'recall'>
  readonly packs: readonly RecallPack[]
  readonly nameOf: (round: SubjectId<'round'>) => string
  /** The packs that were kept: they are chosen no longer. */
  readonly onKept: (rounds: readonly SubjectId<'round'>[]) => void
}

/** One outcome and one note for all packs that are chosen; each becomes an entry of its own. */
export function AccountMany({ recall, packs, nameOf, onKept }: Props) {
  const entries = useEntries('recall-accounted')
  const [chosen, setOutcome] = useState<RecallOutcome | ''>('')
  const [note, setNote] = useState('')
  const [sent, setSent] = useState<readonly Sent<'recall-accounted'>[]>([])
  const w = words.trace.recall
  const options = fittingOutcomes(packs)
  const outcome = options.find((each) => each === chosen) ?? ''
  const send = async () => {
    if (outcome === '') return
    const trimmed = note.trim()
    const bodies = packs.map(({ round }) => ({ recall, round, outcome, ...(trimmed === '' ? {} : { note: trimmed }) }))
    const became = await entries.send(bodies)
    setSent(became)
    onKept(became.flatMap(({ body, refused }) => (refused === null ? [body.round] : [])))
  }
  return (
    <form
      className="form sheet no-print"
      aria-label={w.many}
      onSubmit={(event) => {
        event.preventDefault()
        void send()
      }}
    >
      <p>{packs.length === 0 ? w.chooseFirst : w.chosen(packs.length)}</p>
      {packs.length > 0 && options.length === 0 && <p role="note">{w.noneFits}</p>}
      <SelectField
        label={w.manyOutcome}
        value={outcome}
        options={options.map((value) => ({ value, label: words.trace.outcomes[value] }))}
        onChange={setOutcome}
      />
      <TextField label={w.note} long optional value={note} onChange={setNote} />
      <WhoNeeded />
      <div>
        <button
          type="submit"
          className="main"
          disabled={packs.length === 0 || options.length === 0 || entries.by === null || entries.sending}
        >
          {entries.sending ? words.form.sending : w.manyDo(packs.length)}
        </button>
      </div>
      {entries.error !== null && <ProblemNote error={entries.error} />}
      <Became sent={sent} nameOf={nameOf} />
    </form>
  )
}

function Became({ sent, nameOf }: { readonly sent: readonly Sent<'recall-accounted'>[] } & Pick<Props, 'nameOf'>) {
  const w = words.trace.recall
  const refused = sent.flatMap(({ body, refused }) => (refused === null ? [] : [{ round: body.round, error: refused }]))
  return (
    <>
      <output>{sent.length > 0 && w.manyKept(sent.length - refused.length, sent.length)}</output>
      {refused.length > 0 && (
        <ul className="plain stack" aria-label={w.manyRefused}>
          {refused.map(({ round, error }) => (
            <li key={round}>
              <strong>
                {nameOf(round)} <span className="key small">{subjectKey(round)}</span>
              </strong>
              <ProblemNote error={error} />
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
