import { Link } from 'react-router'
import type { ChartAnswer } from '#service/api-types.ts'
import { GapChart } from '../../charts/GapChart.tsx'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

type Gaps = NonNullable<ChartAnswer['gaps']>

/** The distances between infections as a g chart, a t chart and a table. */
export function GapCharts({ gaps }: { readonly gaps: Gaps | null }) {
  const w = words.wounds.chart
  if (gaps === null || gaps.gaps.length === 0) return null
  return (
    <section className="stack" aria-label={w.gaps}>
      <h2>{w.gaps}</h2>
      <OperationsBetween gaps={gaps} />
      <DaysBetween gaps={gaps} />
      <Distances gaps={gaps} />
    </section>
  )
}

function OperationsBetween({ gaps: { gaps, g, lower, upper, why } }: { readonly gaps: Gaps }) {
  const w = words.wounds.chart
  const list = gaps.map(({ operations }) => operations).join(', ')
  if (g === null) return null
  const says = w.gSays(g.cl.toFixed(0), lower === null ? null : String(lower), String(upper))
  return (
    <>
      <h3>{w.gChart}</h3>
      <p>
        <Why of={{ title: w.limitsTitle, value: says, inputs: w.distances(list), working: why.probability.working }}>
          {says}
        </Why>
      </p>
      <GapChart
        name="operations-between"
        label={w.gChart}
        distances={gaps.map((each) => ({ ...each, value: each.operations, marked: each.short }))}
        lines={[
          { at: g.cl, says: w.centre },
          { at: g.ucl, says: w.upper },
          ...(lower === null ? [] : [{ at: lower, says: w.lower }]),
        ]}
        mark={w.short}
      />
    </>
  )
}

function DaysBetween({ gaps: { gaps, t, why } }: { readonly gaps: Gaps }) {
  const w = words.wounds.chart
  const list = gaps.map(({ days }) => days).join(', ')
  const says = t === null ? w.tTooFew : w.tSays(t.cl.toFixed(1), t.lcl.toFixed(1), t.ucl.toFixed(1))
  return (
    <>
      <h3>{w.tChart}</h3>
      <p>
        {t === null ? (
          says
        ) : (
          <Why of={{ title: w.limitsTitle, value: says, inputs: w.distances(list), working: why.t?.working }}>
            {says}
          </Why>
        )}
      </p>
      <GapChart
        name="days-between"
        label={w.tChart}
        distances={gaps.map((each) => ({ ...each, value: each.days, marked: each.soon }))}
        lines={
          t === null
            ? []
            : [
                { at: t.cl, says: w.centre },
                { at: t.ucl, says: w.upper },
                { at: t.lcl, says: w.lower },
              ]
        }
        mark={w.soon}
      />
    </>
  )
}

function Distances({ gaps: { gaps } }: { readonly gaps: Gaps }) {
  const times = useTimes()
  const w = words.wounds.chart
  return (
    <Table>
      <caption className="unseen">{w.gaps}</caption>
      <thead>
        <tr>
          <th scope="col">{words.theatre.case}</th>
          <th scope="col">{w.gapOperations}</th>
          <th scope="col">{w.gapDays}</th>
        </tr>
      </thead>
      <tbody>
        {gaps
          .toReversed()
          .slice(0, 12)
          .map((gap) => (
            <tr key={gap.case}>
              <th scope="row">
                <Link to={paths.oneCase(gap.case)}>{times.day(gap.at)}</Link>
              </th>
              <td>
                {gap.operations}
                {gap.short && `, ${w.short}`}
              </td>
              <td>
                {gap.days}
                {gap.soon && `, ${w.soon}`}
              </td>
            </tr>
          ))}
      </tbody>
    </Table>
  )
}
