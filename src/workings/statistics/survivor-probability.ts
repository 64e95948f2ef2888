import { z } from 'zod'
import { defineWorking } from '../working.ts'

const logField = z.number().min(0).max(300)

export const survivorProbabilityWorking = defineWorking({
  id: 'survivor-probability',
  title: 'Chance that an organism survives washing and sterilising',
  group: 'statistics',
  method: 'Survivors are Poisson with mean N0 10^-(wash + sterilise): P(at least one) = 1 - exp(-mean).',
  validity: 'Log reductions that add up, and no recontamination.',
  sources: [
    { title: 'Poisson survivors', status: 'computed' },
    {
      title: 'Antimicrob Resist Infect Control 2014;3:4',
      clause: 'reductions of washer and steriliser multiplied',
      status: 'confirmed',
    },
  ],
  input: z.strictObject({
    bioburden: z.number().min(0).max(1e15).describe('organisms on the item before washing'),
    logReductionWash: logField.default(0).describe('log10 reduction of the wash'),
    logReductionSterilize: logField.default(0).describe('log10 reduction of the sterilising'),
  }),
  output: z.strictObject({
    value: z.number().describe('P(at least one survivor)'),
    expectedSurvivors: z.number().describe('organisms expected to survive'),
  }),
  example: {
    input: { bioburden: 1000, logReductionWash: 5, logReductionSterilize: 6 },
    output: { value: 9.999999950000001e-9, expectedSurvivors: 1e-8 },
  },
  work: ({ bioburden, logReductionWash, logReductionSterilize }) => {
    const expectedSurvivors = bioburden * 10 ** -(logReductionWash + logReductionSterilize)
    return { value: -Math.expm1(-expectedSurvivors) || 0, expectedSurvivors }
  },
})
