import { z } from 'zod'
import { hoursToLimit, sheetShareLeft } from '#workings/physics/residue-decay.ts'
import { defineTopic } from '../deciding/topic.ts'
import { figure } from '../naming.ts'
import type { Found } from '../rule.ts'
import { decided } from './accepted.ts'
import { pairRule, sheetModel } from './sources.ts'

export const sheetDesorptionTopic = defineTopic({
  topic: 'sheet-desorption',
  title: 'How long does a plastic sheet give off gas?',
  decisions: { information: 'Two times, as information: a load is released by a listed aeration only.' },
  given: z.strictObject({
    thicknessMm: z.number().min(0.001).max(100),
    diffusionCm2PerS: z.number().min(1e-14).max(1),
    /** The share that is to be left. */
    share: z.number().gt(0).lt(1).default(0.01),
  }),
  sources: [sheetModel, pairRule],
  example: { given: { thicknessMm: 1, diffusionCm2PerS: 1e-7 }, decision: 'information' },
  decide({ thicknessMm, diffusionCm2PerS, share }) {
    const left = (hours: number) => sheetShareLeft(thicknessMm, diffusionCm2PerS, hours)
    const note = (says: string, hours: number | null): Found => ({
      weight: 'note',
      says,
      measured: hours === null ? 'not within 100 000 h' : `${figure(hours)} h`,
      source: sheetModel,
    })
    return decided('sheet-desorption', 'information', [
      note('Until half is left.', hoursToLimit(left, 0.5)),
      note(`Until ${figure(share * 100)} % is left.`, hoursToLimit(left, share)),
    ])
  },
})
