import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { AmountOutput } from './amount.ts'
import { CostPerUse, costPerUse, exampleFigures } from './cost-per-use.ts'
import { annuitySource, costProposal } from './sources.ts'
import { costOfUse, numbersAt, UseFigures } from './use-cost.ts'

const Option = z.strictObject({ name: z.string().trim().min(1).max(80), figures: UseFigures })
type Option = z.infer<typeof Option>

/**
 * In how many uses of its life the first costs as much a use as the second. Null where no life, however long, is long enough.
 */
export function breakEvenUses(first: UseFigures, second: UseFigures): number | null {
  const mine = numbersAt(first, () => 'likely')
  const withoutPurchase = costOfUse(mine) - mine.purchase / mine.lifeUses
  const left = costOfUse(numbersAt(second, () => 'likely')) - withoutPurchase
  return left > 0 ? mine.purchase / left : null
}

function compared([first, ...others]: readonly [Option, ...Option[]]) {
  const base = costPerUse(first.figures)
  return {
    options: [first, ...others].map(({ name, figures }) => ({ name, ...costPerUse(figures) })),
    against: others.map(({ name, figures }) => {
      const other = costPerUse(figures)
      return {
        name,
        // What both share moves them together, and then the difference moves less: these are its bounds, not its likely range.
        dearerBy: {
          low: other.perUse.low - base.perUse.high,
          likely: other.perUse.likely - base.perUse.likely,
          high: other.perUse.high - base.perUse.low,
        },
        firstEvensOutAfterUses: breakEvenUses(first.figures, figures),
      }
    }),
  }
}

export const costWhatIfWorking = defineWorking({
  id: 'cost-what-if',
  title: 'Methods or devices side by side by cost of one use',
  group: 'cost',
  method:
    'cost-per-use of each; the difference to the first with bounds that take each at its opposite end; and the uses in the life of the first at which both cost the same: its price over what the other costs more than all else of the first.',
  validity:
    'Cost alone: whether a method suits a device, and what its failure would do to a patient, is judged elsewhere and comes first. As good as the figures.',
  sources: [annuitySource, costProposal],
  input: z.strictObject({ options: z.tuple([Option, Option], Option).refine((all) => all.length <= 6, 'at most 6') }),
  output: z.strictObject({
    options: z.array(z.strictObject({ name: z.string(), ...CostPerUse.shape })),
    against: z.array(
      z.strictObject({
        name: z.string(),
        dearerBy: AmountOutput.describe('this one less the first, for one use'),
        firstEvensOutAfterUses: z.number().nullable().describe('null: never'),
      }),
    ),
  }),
  example: {
    input: {
      options: [
        { name: 'reused', figures: exampleFigures },
        {
          name: 'used once',
          figures: {
            ...exampleFigures,
            purchase: 25,
            lifeUses: 1,
            repairsPerYear: 0,
            staffMinutes: 2,
            consumables: 1,
            load: null,
            turnaroundHours: 0,
          },
        },
      ],
    },
    output: {
      options: [
        {
          name: 'reused',
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
        {
          name: 'used once',
          perUse: { low: 26.4, likely: 26.4, high: 26.4 },
          perYear: 10560,
          parts: [
            { part: 'purchase', low: 25, likely: 25, high: 25 },
            { part: 'repairs', low: 0, likely: 0, high: 0 },
            { part: 'staff', low: 0.4, likely: 0.4, high: 0.4 },
            { part: 'consumables', low: 1, likely: 1, high: 1 },
            { part: 'water', low: 0, likely: 0, high: 0 },
            { part: 'power', low: 0, likely: 0, high: 0 },
            { part: 'chemicals', low: 0, likely: 0, high: 0 },
            { part: 'machine', low: 0, likely: 0, high: 0 },
            { part: 'tests', low: 0, likely: 0, high: 0 },
            { part: 'turnaround', low: 0, likely: 0, high: 0 },
          ],
          setsNeeded: 1,
          swings: [],
        },
      ],
      against: [
        {
          name: 'used once',
          dearerBy: { low: 1.5249999999999986, likely: 10.9, high: 14.549999999999999 },
          firstEvensOutAfterUses: 62.893081761006286,
        },
      ],
    },
  },
  work: ({ options }) => compared(options),
})
