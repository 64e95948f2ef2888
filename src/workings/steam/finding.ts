import { z } from 'zod'

/** Something seen in the log or in the cycle that a person should know of. */
export const SteamFinding = z.strictObject({
  rule: z.string().describe('name of the check that spoke'),
  weight: z.enum(['stop', 'caution', 'note', 'notEvaluable']).describe('how much it weighs'),
  says: z.string().describe('the finding in one sentence'),
})
export type SteamFinding = z.infer<typeof SteamFinding>

export function finding(rule: string, weight: SteamFinding['weight'], says: string): SteamFinding {
  return { rule, weight, says }
}
