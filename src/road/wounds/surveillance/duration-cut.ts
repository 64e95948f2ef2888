import { percentile } from '#workings/statistics/percentile75.ts'
import type { Source } from '#units/source.ts'
import { Procedure } from '../../operating/procedures.ts'
import type { Policy } from '../../policy.ts'
import { durationCutFrom, durationCutLeast, givenDurationCuts } from '../risk-limits.ts'
import { ownPercentile } from '../sources.ts'

/** The length above which an operation of one kind scores a point, and which of the two ways gave it. */
export interface DurationCut {
  readonly procedure: Procedure
  readonly minutes: number
  readonly from: 'own' | 'given'
  /** Operations of this kind on record: those that the own percentile rests on, or would rest on. */
  readonly operations: number
  readonly source: Source
}

export type DurationCuts = ReadonlyMap<Procedure, DurationCut>

/**
 * The cut points of all kinds of operation. The own 75th percentile needs enough operations; with fewer the given one
 * stands in, and where none is given there is no cut point: the index is then not evaluable, never low.
 */
export function durationCuts(
  operations: readonly { readonly procedure: Procedure | null; readonly minutes: number }[],
  policy: Policy,
): DurationCuts {
  const chosen = policy.limit(durationCutFrom).value
  const least = policy.limit(durationCutLeast).value
  const cuts = Procedure.options.flatMap((procedure): readonly DurationCut[] => {
    const minutes = operations.filter((each) => each.procedure === procedure).map((each) => each.minutes)
    const given = policy.limit(givenDurationCuts[procedure])
    if (chosen === 'own' && minutes.length >= least) {
      const cut = { procedure, minutes: percentile(minutes, 0.75), operations: minutes.length }
      return [{ ...cut, from: 'own', source: ownPercentile }]
    }
    if (given.value === 0) return []
    return [{ procedure, minutes: given.value, from: 'given', operations: minutes.length, source: given.source }]
  })
  return new Map(cuts.map((cut) => [cut.procedure, cut]))
}
