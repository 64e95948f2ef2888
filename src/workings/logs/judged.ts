import { z } from 'zod'
import { Source } from '#units/source.ts'
import { CriterionResult } from '../steam/criterion.ts'

/** One demand on a logged cycle, with what was measured and what was wanted. */
export const LogCriterion = z.strictObject({
  id: z.string(),
  title: z.string(),
  result: CriterionResult,
  measured: z.number().nullable().describe('the figure as logged; null when it cannot be had'),
  limit: z.number().nullable().describe('the limit it is compared with; equality meets it; null when none is stated'),
  unit: z.string(),
  says: z.string().describe('the comparison, or why there is none, in one sentence'),
  source: Source,
})
export type LogCriterion = z.infer<typeof LogCriterion>

/** One demand broken is enough for 'notMet'; 'met' asks that every one is met. */
export function verdictOf(criteria: readonly LogCriterion[]): CriterionResult {
  if (criteria.some(({ result }) => result === 'notMet')) return 'notMet'
  return criteria.every(({ result }) => result === 'met') ? 'met' : 'notEvaluable'
}

interface Bounds {
  readonly atLeast: number
  readonly atMost: number
}

/** A figure known between two bounds against a least or a greatest: what the bounds leave open is not evaluable. */
export function resultOf(bounds: Bounds, limit: number, kind: 'least' | 'greatest'): CriterionResult {
  const slack = 1e-6 * Math.max(1, Math.abs(limit))
  if (kind === 'least') {
    if (bounds.atLeast >= limit - slack) return 'met'
    return bounds.atMost < limit - slack ? 'notMet' : 'notEvaluable'
  }
  if (bounds.atMost <= limit + slack) return 'met'
  return bounds.atLeast > limit + slack ? 'notMet' : 'notEvaluable'
}
