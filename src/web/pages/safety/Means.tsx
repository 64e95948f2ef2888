import { airLimitsOf } from '#road/gases/air-limits.ts'
import { exposureFound, exposureMeans } from '#road/gases/room-exposure.ts'
import { Findings } from '../../components/Findings.tsx'
import { usePolicy } from '../../components/use-policy.ts'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'
import type { Exposure } from './exposures.ts'

/** One measurement: its means, computed from its periods, and what stands against them. */
export function Means({ of }: { readonly of: Exposure }) {
  const w = words.safety
  const policy = usePolicy()
  const means = exposureMeans(of.figures)
  const limits = airLimitsOf[of.figures.vapour]
  const found = exposureFound(of.figures, policy)
  const inputs = of.figures.periods.map(({ minutes, ppm }) => w.period(minutes, ppm)).join('; ')
  const against = (limit: (typeof limits)['shift']) =>
    limit === null ? {} : { limit: `${policy.limit(limit).value} ${limit.unit}`, source: policy.limit(limit).source }
  return (
    <div className="stack">
      <p>
        <Why
          of={{
            title: w.shift,
            value: w.ppm(means.shiftPpm),
            working: 'time-weighted-exposure',
            inputs,
            entry: of.entry,
            ...against(limits.shift),
          }}
        >
          {w.shift} {w.ppm(means.shiftPpm)}
        </Why>
        {means.quarterPpm !== null && (
          <>
            ,{' '}
            <Why
              of={{
                title: w.quarter,
                value: w.ppm(means.quarterPpm),
                working: 'time-weighted-exposure',
                inputs,
                entry: of.entry,
                ...against(limits.quarter),
              }}
            >
              {w.quarter} {w.ppm(means.quarterPpm)}
            </Why>
          </>
        )}
        , {w.highest} {w.ppm(means.highestPpm)}. {found.length === 0 && <strong>{w.within}</strong>}
      </p>
      {found.length > 0 && <Findings findings={found.map((each) => ({ rule: 'exposure-within-limits', ...each }))} />}
    </div>
  )
}
