import type { ChartAnswer } from '#service/api-types.ts'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

type Design = NonNullable<ChartAnswer['path']>['design']

/** What the chart does, in operations and infections, and what it follows from. */
export function ChartDesignLine({ design, volume }: { readonly design: Design; readonly volume: number }) {
  const w = words.wounds.chart
  const { percent } = words.wounds.rates
  const { usualRate, raisedRate, withoutRise, withRiseFromStart, falseAlarmWithinYear } = design
  const says = w.says(
    w.yearsOf(withoutRise / volume),
    String(volume),
    Math.round(withoutRise).toString(),
    Math.round(withRiseFromStart).toString(),
    (withRiseFromStart * raisedRate).toFixed(1),
  )
  const within = design.loneInfectionAlarmsWithin
  const lone = within === 'Infinity' ? w.loneAlways : within === 0 ? w.loneNever : w.lone(String(within))
  return (
    <p>
      <Why
        of={{
          title: w.designTitle,
          value: says,
          says: lone,
          inputs: w.designInputs(
            percent(usualRate),
            percent(raisedRate),
            design.oddsRatio.toFixed(2),
            design.start.toFixed(2),
          ),
          limit: w.designLimit(design.limit.toFixed(3)),
          working: design.why.working,
        }}
      >
        {says}
      </Why>{' '}
      {w.withinYear(percent(falseAlarmWithinYear))}
    </p>
  )
}
