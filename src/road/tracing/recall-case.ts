import { z } from 'zod'
import type { AttachmentDigest } from '../attachment.ts'
import { caseKnown, caseStep, hoursAgo } from '../deciding/case-facts.ts'
import { LoadPurpose } from '../sterilising/entries.ts'
import type { LoadKnown } from '../sterilising/load-fold.ts'

/** One load of a steriliser as a case tells it. */
export const RecallCaseLoad = z.strictObject({
  name: z.string().min(1),
  biological: z
    .enum(['none', 'negative', 'positive', 'invalid'])
    .default('none')
    .describe('Negative counts only with a control of the same lot that grew; otherwise it is invalid'),
  incubatedHours: z.number().positive().optional().describe('Hours incubated; left out: as long as the method needs'),
  physical: z.enum(['met', 'notMet']).default('met').describe('What the record of the cycle says'),
  chemicalFailed: z.boolean().default(false).describe('A chemical indicator of the load failed'),
  implant: z.boolean().default(false).describe('The load held an implant'),
  purpose: LoadPurpose.default('goods').describe('`retest` is a repeat after the failure'),
  program: z.string().default('one').describe('The cycle type'),
})
export type RecallCaseLoad = z.infer<typeof RecallCaseLoad>

/** The loads of a case as the record would know them, an hour apart, the last an hour ago. */
export function recallCaseLoads(loads: readonly RecallCaseLoad[], wantedHours: number): readonly LoadKnown[] {
  return loads.map((load, index) => {
    const at = hoursAgo(loads.length - index)
    return caseKnown('load', `load:case-${String(index).padStart(5, '0')}`, {
      machine: 'machine:case',
      program: load.program,
      purpose: load.purpose,
      builtAt: at,
      cycle: caseStep(at, {
        program: load.program,
        startedAt: at,
        endedAt: at,
        log: '0'.repeat(64) as AttachmentDigest,
        report: { ...emptyReport, verdict: load.physical },
      }),
      chemical: load.chemicalFailed
        ? [caseStep(at, { where: 'insidePack' as const, type: '5' as const, result: 'failed' as const })]
        : [],
      biological: readOf(load, at, wantedHours),
    })
  })
}

const emptyReport = {
  holdingSeconds: null,
  equilibrationSeconds: null,
  fMinutes: null,
  minC: null,
  maxC: null,
  maxSpreadK: null,
  fReferenceC: 121.1,
  zK: 10,
  criteria: [],
  findings: [],
}

function readOf(
  load: RecallCaseLoad,
  at: NonNullable<LoadKnown['builtAt']>,
  wantedHours: number,
): LoadKnown['biological'] {
  const { biological, incubatedHours = wantedHours } = load
  if (biological === 'none') return []
  const control = { lot: 'b', result: biological === 'invalid' ? ('noGrowth' as const) : ('growth' as const) }
  const result = biological === 'positive' ? ('growth' as const) : ('noGrowth' as const)
  return [caseStep(at, { lot: 'b', result, control, incubatedHours })]
}
