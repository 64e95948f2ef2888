import { z } from 'zod'

const wordField = z.string().min(1).max(200)
const dayField = z.iso.date()

const ExposureField = z.strictObject({
  type: wordField.describe('kind of exposure: load, bath, outlet, instrument, person, theatre, wait …'),
  id: wordField.describe('which one'),
  at: z.string().max(40).optional().describe('when; not used in the ranking'),
  amount: z
    .number()
    .min(-1e9)
    .max(1e9)
    .optional()
    .describe('how much: age of the bath, minutes waited, place on the list'),
  flags: z.array(wordField).max(50).default([]).describe('conditions it was in, such as "older than its limit"'),
})

export const CaseField = z.strictObject({
  id: wordField.describe('the case'),
  date: dayField.describe('day of the operation'),
  procedure: wordField.optional().describe('what was done'),
  stratum: wordField.optional().describe('within which infections are shuffled; month and procedure without it'),
  infected: z.boolean().describe('whether the wound became infected'),
  onset: dayField.optional().describe('first sign'),
  organism: z.string().max(200).optional().describe('what grew'),
  depth: z.string().max(100).optional().describe('how deep; not used in the ranking'),
  exposures: z.array(ExposureField).max(500).describe('all that the case met'),
})

export type RankingCase = z.infer<typeof CaseField>

export const FindingField = z.strictObject({
  type: wordField.describe('kind of exposure it stands against'),
  id: wordField.describe('which one'),
  says: z.string().min(1).max(500).describe('what was found, in words'),
})

export type ProcessFinding = z.infer<typeof FindingField>

export const RankingInput = z
  .strictObject({
    cases: z.array(CaseField).min(1).max(50_000).describe('the line list: every case of the time, infected or not'),
    findings: z.array(FindingField).max(10_000).default([]).describe('what the record holds against exposures'),
    permutations: z.number().int().min(99).max(1_000_000).default(9999).describe('shuffles of the infections'),
    seed: z.number().int().min(0).max(4_294_967_295).default(1).describe('seed of the shuffles'),
    level: z
      .number()
      .min(0.001)
      .max(0.5)
      .default(0.05)
      .describe('family-wise p at or below which an association is named'),
    most: z.number().int().min(1).max(5000).default(100).describe('exposures shown, best first'),
  })
  .superRefine(({ cases }, context) => {
    const seen = new Set<string>()
    for (const [index, { id }] of cases.entries()) {
      if (seen.has(id))
        context.addIssue({ code: 'custom', path: ['cases', index, 'id'], message: 'each case once', input: id })
      seen.add(id)
    }
  })

export type RankingInput = z.infer<typeof RankingInput>
