import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { AmountOutput } from './amount.ts'
import { annuitySource, costProposal } from './sources.ts'
import {
  costOfUse,
  extreme,
  numbersAt,
  parts,
  partsOfUse,
  setsNeeded,
  swingsOf,
  type UseFigures,
  UseFigures as Input,
} from './use-cost.ts'

/** What one use costs with its parts, from the figures all at their cheapest, likely and dearest. */
export function costPerUse(figures: UseFigures) {
  const [cheapest, likely, dearest] = [
    extreme(figures, 'cheapest'),
    numbersAt(figures, () => 'likely'),
    extreme(figures, 'dearest'),
  ]
  const [low, middle, high] = [partsOfUse(cheapest), partsOfUse(likely), partsOfUse(dearest)]
  return {
    perUse: { low: costOfUse(cheapest), likely: costOfUse(likely), high: costOfUse(dearest) },
    perYear: costOfUse(likely) * likely.usesPerYear,
    parts: parts.map((part) => ({ part, low: low[part], likely: middle[part], high: high[part] })),
    setsNeeded: setsNeeded(likely),
    swings: [...swingsOf(figures)],
  }
}

export const CostPerUse = z.strictObject({
  perUse: AmountOutput.describe('one use; low and high with every figure at that end'),
  perYear: z.number().describe('all uses of a year, as they most likely are'),
  parts: z.array(z.strictObject({ part: z.enum(parts), ...AmountOutput.shape })),
  setsNeeded: z.number().describe('sets that must be there, so that one is ready for each use; not rounded for peaks'),
  swings: z
    .array(z.strictObject({ figure: z.string(), atLow: z.number(), atHigh: z.number(), swing: z.number() }))
    .describe('one use with one figure at its ends, the greatest swing first'),
})

/** Invented figures in no currency, for the example alone. */
export const exampleFigures = {
  usesPerYear: 400,
  purchase: { low: 900, likely: 1000, high: 1200 },
  lifeUses: { low: 100, likely: 200, high: 250 },
  repairsPerYear: 400,
  staffMinutes: { low: 20, likely: 30, high: 40 },
  staffHour: 12,
  consumables: 2,
  waterLitre: 0.01,
  kilowattHour: 0.2,
  load: {
    setsPerLoad: { low: 4, likely: 5, high: 6 },
    loadsPerYear: 1000,
    waterLitres: 100,
    kilowattHours: 10,
    chemicals: 1,
    machinePrice: 20_000,
    machineLifeYears: 10,
    maintenancePerYear: 1000,
    testsPerYear: 500,
  },
  turnaroundHours: 5,
  hoursOpenPerYear: 2000,
  interest: 0,
}

export const costPerUseWorking = defineWorking({
  id: 'cost-per-use',
  title: 'Cost of one use',
  group: 'cost',
  method:
    'Purchase over uses in its life, repairs over uses in a year, minutes of staff by their hour, consumables, and the share of a load: water, power, chemicals, tests, and the machine as price over its annuity factor (1 - (1 + r)^-n)/r with its maintenance. The turnaround binds the price of the set at the rate of interest. Low and high take every figure at that end; the swings take one at a time.',
  validity:
    'As good as the figures, which are the unit’s own; nothing is assumed. Infections avoided and harm have no price here. Peaks of a day need more sets than the yearly mean.',
  sources: [annuitySource, costProposal],
  input: Input,
  output: CostPerUse,
  example: {
    input: exampleFigures,
    output: {
      perUse: { low: 11.85, likely: 15.499999999999998, high: 24.875 },
      perYear: 6199.999999999999,
      parts: [
        { part: 'purchase', low: 3.6, likely: 5, high: 12 },
        { part: 'repairs', low: 1, likely: 1, high: 1 },
        { part: 'staff', low: 4, likely: 6, high: 8 },
        { part: 'consumables', low: 2, likely: 2, high: 2 },
        { part: 'water', low: 0.16666666666666666, likely: 0.2, high: 0.25 },
        { part: 'power', low: 0.3333333333333333, likely: 0.4, high: 0.5 },
        { part: 'chemicals', low: 0.16666666666666666, likely: 0.2, high: 0.25 },
        { part: 'machine', low: 0.5, likely: 0.6, high: 0.75 },
        { part: 'tests', low: 0.08333333333333333, likely: 0.1, high: 0.125 },
        { part: 'turnaround', low: 0, likely: 0, high: 0 },
      ],
      setsNeeded: 1,
      swings: [
        { figure: 'lifeUses', atLow: 20.5, atHigh: 14.499999999999998, swing: 6.000000000000002 },
        { figure: 'staffMinutes', atLow: 13.499999999999998, atHigh: 17.5, swing: 4.000000000000002 },
        { figure: 'purchase', atLow: 14.999999999999998, atHigh: 16.5, swing: 1.5000000000000018 },
        { figure: 'load.setsPerLoad', atLow: 15.875, atHigh: 15.25, swing: 0.625 },
      ],
    },
  },
  work: costPerUse,
})
