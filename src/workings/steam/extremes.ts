import type { Doubt } from './doubt.ts'
import type { Span } from './hot-regions.ts'
import { at } from './series.ts'

/** A figure as logged, with what it is at least and at the most when the readings are doubted. */
export interface Doubted {
  readonly logged: number
  readonly atLeast: number
  readonly atMost: number
}

export interface DoubtedSeries {
  readonly values: Float64Array
  readonly doubt: Doubt
}

/** Greatest reading of several series over a span; NaN when there is none. */
export function greatest(series: readonly DoubtedSeries[], span: Span): Doubted {
  return over(span, (index) => {
    let logged = Number.NaN
    let atLeast = Number.NaN
    let atMost = Number.NaN
    for (const { values, doubt } of series) {
      const value = at(values, index)
      logged = greater(logged, value)
      atLeast = greater(atLeast, value - doubt.wide)
      atMost = greater(atMost, value + doubt.step)
    }
    return { logged, atLeast, atMost }
  })
}

/** Least reading; `atLeast` and `atMost` are of the size of what is missing, so they keep their order. */
export function least(series: readonly DoubtedSeries[], span: Span): Doubted {
  const mirrored = series.map(({ values, doubt }) => ({ values: values.map((value) => -value), doubt }))
  const { logged, atLeast, atMost } = greatest(mirrored, span)
  return { logged: -logged, atLeast: -atMost, atMost: -atLeast }
}

/** Greatest difference between the series at one instant over a span. */
export function greatestSpread(series: readonly DoubtedSeries[], span: Span): Doubted {
  return over(span, (index) => {
    const spread = (shift: (doubt: Doubt) => number) => {
      let low = Number.POSITIVE_INFINITY
      let high = Number.NEGATIVE_INFINITY
      for (const { values, doubt } of series) {
        const value = at(values, index)
        if (value - shift(doubt) < low) low = value - shift(doubt)
        if (value + shift(doubt) > high) high = value + shift(doubt)
      }
      return high >= low ? high - low : Number.NaN
    }
    const sure = spread((doubt) => -doubt.wide)
    return { logged: spread(() => 0), atLeast: Number.isNaN(sure) ? 0 : sure, atMost: spread((doubt) => doubt.step) }
  })
}

function over({ from, to }: Span, instant: (index: number) => Doubted): Doubted {
  let logged = Number.NaN
  let atLeast = Number.NaN
  let atMost = Number.NaN
  for (let index = from; index <= to; index += 1) {
    const here = instant(index)
    logged = greater(logged, here.logged)
    atLeast = greater(atLeast, here.atLeast)
    atMost = greater(atMost, here.atMost)
  }
  return { logged, atLeast, atMost }
}

function greater(a: number, b: number): number {
  return b >= a || Number.isNaN(a) ? b : a
}
