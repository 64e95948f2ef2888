import type { RatesBy } from '#service/api-types.ts'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

type Rate = RatesBy['all']

/** What the cells of a rate are called, in their order. */
export const rateHeads: readonly string[] = [
  words.wounds.rates.infections,
  words.wounds.rates.rate,
  words.wounds.rates.interval,
  words.wounds.rates.followed,
  words.wounds.rates.bounds,
]

/** A rate in the cells of a row. */
export function RateCells({ rate }: { readonly rate: Rate }) {
  const w = words.wounds.rates
  const { infections, operations, followUp } = rate
  return (
    <>
      <td>{w.of(infections, operations)}</td>
      <td>
        <RateFigure rate={rate} />
      </td>
      <td>
        <IntervalFigure rate={rate} />
      </td>
      <td>{w.followedOf(followUp.known, followUp.ended, followUp.running)}</td>
      <td>
        <BoundsFigure rate={rate} />
      </td>
    </>
  )
}

/** The rate, which opens how it came about. */
export function RateFigure({ rate }: { readonly rate: Rate }) {
  const w = words.wounds.rates
  if (rate.rate === null) return <>—</>
  const value = w.percent(rate.rate)
  return <Why of={{ title: w.rate, value, inputs: w.of(rate.infections, rate.operations) }}>{value}</Why>
}

/** The exact interval, which opens its method and its inputs. */
export function IntervalFigure({ rate: { interval, infections, operations, why } }: { readonly rate: Rate }) {
  const w = words.wounds.rates
  if (interval === null) return <>—</>
  const value = `${w.percent(interval[0])} – ${w.percent(interval[1])}`
  return (
    <Why of={{ title: w.interval, value, inputs: w.of(infections, operations), working: why?.interval.working }}>
      {value}
    </Why>
  )
}

/** What the rate would be if every lost one had stayed well, and if every one were infected. */
export function BoundsFigure({ rate: { bounds, infections, operations, followUp, why } }: { readonly rate: Rate }) {
  const w = words.wounds.rates
  if (bounds === null) return <>—</>
  const value = `${w.percent(bounds.best)} – ${w.percent(bounds.worst)}`
  return (
    <Why
      of={{
        title: w.bounds,
        value,
        says: w.boundsSay(w.percent(bounds.best), w.percent(bounds.worst)),
        inputs: w.boundInputs(infections, operations, followUp.lost),
        working: why?.bounds.working,
      }}
    >
      {value}
    </Why>
  )
}
