import { z } from 'zod'
import { Source } from '#units/source.ts'

/**
 * How much a finding weighs.
 * - `stop`: a decision is refused; a fact is kept and alarmed.
 * - `caution`: allowed, said aloud.
 * - `note`: worth knowing.
 * - `notEvaluable`: what the rule needs is missing; a decision is refused, since not evaluable is never a pass.
 */
export const FindingWeight = z.enum(['stop', 'caution', 'note', 'notEvaluable'])
export type FindingWeight = z.infer<typeof FindingWeight>

/** What a rule found, with the figure and the limit it was held against. */
export const Finding = z.object({
  rule: z.string(),
  weight: FindingWeight,
  says: z.string(),
  measured: z.string().optional(),
  limit: z.string().optional(),
  source: Source,
})
export type Finding = z.infer<typeof Finding>

/** Whether a finding stands against a decision. */
export function stands(finding: Finding): boolean {
  return finding.weight === 'stop' || finding.weight === 'notEvaluable'
}
