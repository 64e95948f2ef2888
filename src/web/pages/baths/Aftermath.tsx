import type { BathKnown } from '#road/baths/bath-fold.ts'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { SpillLine } from './SpillLine.tsx'

/** How a bath was disposed of, and what was spilled of it. */
export function Aftermath({ bath }: { readonly bath: BathKnown }) {
  const times = useTimes()
  const { retired, spills } = bath
  const d = words.safety.disposal
  return (
    <>
      {retired !== null && (
        <section className="stack" aria-label={d.title}>
          <h2>{d.title}</h2>
          <p>
            <Why of={{ title: d.title, value: words.baths.whyRetired[retired.why], entry: retired.entry }}>
              {words.baths.whyRetired[retired.why]}
            </Why>
            , {times.moment(retired.at)}:{' '}
            {retired.neutraliser === '' ? d.notNeutralised : d.neutralised(retired.neutraliser)}.{' '}
            {retired.drainedTo === undefined ? d.notSaid : d.drains[retired.drainedTo]}: {retired.disposal}
          </p>
        </section>
      )}
      {spills.length > 0 && (
        <section className="stack" aria-label={words.safety.spills.title}>
          <h2>{words.safety.spills.title}</h2>
          <ul className="lines">
            {spills.map((spill) => (
              <SpillLine key={spill.entry} spill={spill} />
            ))}
          </ul>
        </section>
      )}
    </>
  )
}
