import type { RoundKnown } from '#road/round.ts'
import { subjectKey } from '#road/subject.ts'
import { Named } from '../../components/Named.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** What goes on the pack: its key to be scanned or typed, what it is, when and by whom it was sealed. */
export function PackLabel({ round }: { readonly round: RoundKnown }) {
  const times = useTimes()
  if (round.sealed === null) return null
  return (
    <section className="sheet stack" style={{ maxWidth: '26rem' }} aria-label={words.wash.packing.label}>
      <h2>
        <Named id={round.set ?? round.id} />
      </h2>
      <p className="key" style={{ fontSize: '1.3rem' }}>
        {subjectKey(round.id)}
      </p>
      <p>
        {words.wash.wraps[round.sealed.wrap]}, {times.moment(round.sealed.at)}, <Named id={round.sealed.by} />
        {round.sealed.useBefore !== undefined && `, ${words.round.usableTo(times.day(round.sealed.useBefore))}`}
      </p>
      <div>
        <button type="button" onClick={() => print()}>
          {words.form.print}
        </button>
      </div>
    </section>
  )
}
