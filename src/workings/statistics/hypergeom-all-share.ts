import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { cellField } from './exact/cell-fields.ts'
import { exactP } from './exact/exact-p.ts'
import { exposedCasesOf } from './exact/exposed-cases.ts'
import { closedFormSource } from './sources-of-attribution.ts'

export const hypergeomAllShareWorking = defineWorking({
  id: 'hypergeom-all-share',
  title: 'Chance that so many infected share an exposure',
  group: 'statistics',
  method:
    'P(X >= sharing) for a hypergeometric X: infected wounds drawn at random from N procedures, of which some were exposed.',
  validity:
    'One exposure, named before looking. For the worst of many loads use max-infections-in-any-load or westfall-young-minp.',
  sources: [closedFormSource],
  input: z
    .strictObject({
      N: cellField.min(1).describe('procedures'),
      exposed: cellField.describe('procedures with the exposure'),
      infected: cellField.describe('infected procedures'),
      sharing: cellField.describe('infected procedures with the exposure'),
    })
    .superRefine(({ N, exposed, infected, sharing }, context) => {
      const refuse = (field: string, message: string) =>
        context.addIssue({ code: 'custom', path: [field], message, input: field })
      if (exposed > N) refuse('exposed', `at most N, ${N}`)
      if (infected > N) refuse('infected', `at most N, ${N}`)
      if (sharing > Math.min(exposed, infected)) refuse('sharing', 'at most exposed and infected')
    }),
  output: z.strictObject({ value: z.number().describe('P(at least so many share it)') }),
  example: { input: { N: 150, exposed: 20, infected: 5, sharing: 5 }, output: { value: 0.00002620689522277408 } },
  work: ({ N, exposed, infected, sharing }) => {
    const distribution = exposedCasesOf(infected, N - infected, exposed)
    return { value: sharing <= distribution.low ? 1 : exactP(distribution, sharing).greater }
  },
})
