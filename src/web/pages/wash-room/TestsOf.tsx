import { soilLimits } from '#road/cleaning/cleaning-test-limits.ts'
import { soilFound, soilOutcome } from '#road/cleaning/cleaning-test.ts'
import type { RoundKnown } from '#road/round.ts'
import { Findings } from '../../components/Findings.tsx'
import { Named } from '../../components/Named.tsx'
import { Photos } from '../../components/Photos.tsx'
import { usePolicy } from '../../components/use-policy.ts'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** What tests found on this set since its last wash, each with its photos. */
export function TestsOf({ round }: { readonly round: RoundKnown }) {
  const w = words.water
  const policy = usePolicy()
  const times = useTimes()
  if (round.cleaningTests.length === 0) return null
  return (
    <ul className="lines" aria-label={w.results}>
      {round.cleaningTests.map((test) => {
        const found = soilFound(test, policy)
        const value = `${test.value} ${soilLimits[test.analyte].unit}`
        return (
          <li key={test.entry}>
            <div className="grow stack">
              <p>
                <Why of={{ title: w.analytes[test.analyte], value, entry: test.entry }}>
                  {w.analytes[test.analyte]} {value}
                </Why>
                : <strong>{w.outcomes[soilOutcome(test, policy)]}</strong>
                {test.device !== undefined && (
                  <>
                    , <Named id={test.device} />
                  </>
                )}
                , {times.moment(test.at)}
              </p>
              {found.length > 0 && <Findings findings={found.map((each) => ({ rule: 'clean-by-test', ...each }))} />}
              <Photos of={test.photos} />
            </div>
          </li>
        )
      })}
    </ul>
  )
}
