import { useState } from 'react'
import type { KnownRow } from '#service/api-types.ts'
import { subjectKey } from '#road/subject.ts'
import { InDoubt } from '../../components/InDoubt.tsx'
import { useNames } from '../../components/Named.tsx'
import { Progress } from '../../components/Progress.tsx'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { useEntry } from '../../session/use-entry.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly row: KnownRow<'round'>
  readonly places: readonly string[]
}

/** One line for each pack: where it is put, and done. */
export function StoreForm({ row, places }: Props) {
  const entry = useEntry('pack-stored')
  const [place, setPlace] = useState('')
  const name = useNames('set')(row.state.set)
  const w = words.theatre.shelf
  return (
    <form
      className="row sheet"
      aria-label={`${w.store}: ${name}`}
      onSubmit={(event) => {
        event.preventDefault()
        void entry.send({ round: row.subject, place: place.trim() })
      }}
    >
      <div style={{ flex: '1 1 12rem' }}>
        <strong>{name}</strong>
        <br />
        <span className="key small soft">{subjectKey(row.subject)}</span>
        <InDoubt of={row.doubts} />
      </div>
      <input
        style={{ flex: '1 1 10rem', width: 'auto' }}
        list="places"
        required
        maxLength={60}
        placeholder={w.place}
        aria-label={`${w.place}: ${name}`}
        value={place}
        onChange={(event) => setPlace(event.target.value)}
      />
      <datalist id="places">
        {places.map((each) => (
          <option key={each} value={each}>
            {each}
          </option>
        ))}
      </datalist>
      <button
        type="submit"
        className="main"
        aria-label={`${w.store}: ${name}`}
        disabled={entry.by === null || entry.progress.at === 'sending'}
      >
        {w.store}
      </button>
      <WhoNeeded />
      <Progress progress={entry.progress} />
    </form>
  )
}
