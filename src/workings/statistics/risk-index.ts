import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput } from './fields.ts'
import { gaynesSource } from './sources.ts'

interface Operation {
  readonly asa: number
  readonly woundClass: number
  readonly durationMin: number
  readonly cutPointMin: number
}

/** 0 to 3 points. */
export function riskIndex({ asa, woundClass, durationMin, cutPointMin }: Operation): number {
  return Number(asa >= 3) + Number(woundClass >= 3) + Number(durationMin > cutPointMin)
}

export const riskIndexWorking = defineWorking({
  id: 'risk-index',
  title: 'Basic risk index of an operation',
  group: 'statistics',
  method:
    'One point each for ASA 3 or more, wound class III or IV, and a duration above the cut point (75th percentile of the operation). Equality does not score.',
  validity: 'Range 0 to 3. That equality does not score is from memory.',
  sources: [gaynesSource],
  input: z.strictObject({
    scheme: z.literal('basic').default('basic'),
    asa: z.int().min(1).max(5),
    woundClass: z.int().min(1).max(4).describe('1 clean … 4 dirty'),
    durationMin: z.number().min(0).max(10_000),
    cutPointMin: z.number().min(1).max(10_000),
  }),
  output: NumberOutput,
  example: {
    input: { scheme: 'basic', asa: 3, woundClass: 3, durationMin: 130, cutPointMin: 99 },
    output: { value: 3 },
  },
  work: (given) => ({ value: riskIndex(given) }),
})
