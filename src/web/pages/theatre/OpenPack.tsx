import { type FormEvent, useEffect, useRef, useState } from 'react'
import type { KnownRow } from '#service/api-types.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { InDoubt } from '../../components/InDoubt.tsx'
import { useNames } from '../../components/Named.tsx'
import { useRounds } from '../../components/use-rounds.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { PackInHand } from './PackInHand.tsx'

type Row = KnownRow<'round'>

/** Scan or type a pack, look at it, open it. The field has the focus, so that a scanner needs no hand. */
export function OpenPack({ of }: { readonly of: SubjectId<'case'> }) {
  const [text, setText] = useState('')
  const [hand, setHand] = useState<Row | null>(null)
  const [fits, setFits] = useState<readonly Row[] | null>(null)
  const field = useRef<HTMLInputElement>(null)
  const find = usePackFinder()
  useEffect(() => {
    if (hand === null) field.current?.focus({ preventScroll: true })
  }, [hand])
  const submit = (event: FormEvent) => {
    event.preventDefault()
    const found = find(text)
    const [only] = found
    setHand(found.length === 1 && only !== undefined ? only : null)
    setFits(found.length === 1 ? null : found)
  }
  const done = () => {
    setHand(null)
    setText('')
  }
  const w = words.theatre
  return (
    <section className="next stack" style={{ alignItems: 'stretch' }} aria-label={w.openPack}>
      <h2>{w.openPack}</h2>
      <form className="row" onSubmit={submit} aria-label={w.packFind}>
        <input
          ref={field}
          style={{ flex: '1 1 16rem', width: 'auto', minHeight: '3.5rem', fontSize: '1.2rem' }}
          aria-label={w.packKey}
          placeholder={w.openSays}
          required
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
        <button type="submit" className="main large">
          {w.packFind}
        </button>
      </form>
      {fits !== null && hand === null && <Fits text={text} rows={fits} onChoose={setHand} />}
      {hand !== null && <PackInHand key={hand.subject} row={hand} of={of} onDone={done} />}
    </section>
  )
}

/** The pack with exactly this key or, failing that, those whose set or key holds the text and that are not used yet. */
function usePackFinder(): (text: string) => readonly Row[] {
  const { data: rounds = [] } = useRounds()
  const setName = useNames('set')
  return (text) => {
    const wanted = text
      .trim()
      .toLowerCase()
      .replace(/^round:/, '')
    const exact = rounds.filter((row) => subjectKey(row.subject).toLowerCase() === wanted)
    if (exact.length > 0) return exact
    // What comes out of a bath is never sealed, and is used at once.
    const waiting = rounds.filter(
      (row) => row.state.opened === null && (row.state.sealed !== null || row.standing === 'bathReady'),
    )
    return waiting.filter(
      (row) => row.subject.toLowerCase().includes(wanted) || setName(row.state.set).toLowerCase().includes(wanted),
    )
  }
}

interface FitsProps {
  readonly text: string
  readonly rows: readonly Row[]
  readonly onChoose: (row: Row) => void
}

function Fits({ text, rows, onChoose }: FitsProps) {
  const setName = useNames('set')
  if (rows.length === 0) return <p role="alert">{words.theatre.packNotKnown(text)}</p>
  return (
    <section aria-label={words.theatre.several}>
      <p>{words.theatre.several}</p>
      <ul className="lines">
        {rows.slice(0, 12).map((row) => (
          <li key={row.subject}>
            <button type="button" className="quiet" onClick={() => onChoose(row)}>
              <strong>{setName(row.state.set)}</strong> <span className="key small">{subjectKey(row.subject)}</span>{' '}
              <span className="small">
                {standingText('round', row.standing)} {row.state.stored?.place}
              </span>
              <InDoubt of={row.doubts} />
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
