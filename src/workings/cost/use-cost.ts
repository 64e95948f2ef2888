import { z } from 'zod'
import { type Amount, amount } from './amount.ts'
import { annuityFactor } from './annuity.ts'

const money = (): z.ZodType<Amount> => amount(0, 1e9)
const count = (): z.ZodType<Amount> => amount(1, 1e9)

/** What a load of the machine takes, shared by what is in it. */
const LoadFigures = z.strictObject({
  setsPerLoad: count().describe('sets or devices that share a load'),
  loadsPerYear: count().describe('loads of the machine in a year'),
  waterLitres: amount(0, 1e6).describe('water of a load, litres'),
  kilowattHours: amount(0, 1e6).describe('power of a load, kWh'),
  chemicals: money().describe('detergent, gas or solution of a load'),
  machinePrice: money().describe('price of the machine with its installation'),
  machineLifeYears: amount(0.5, 100).describe('years that the machine lasts'),
  maintenancePerYear: money().describe('service, calibration and repair of the machine in a year'),
  testsPerYear: money().describe('indicators and tests of the machine in a year'),
})

/** All that one use costs. A thing that is used once has a life of 1 use and no load. */
export const UseFigures = z.strictObject({
  usesPerYear: count().describe('uses in a year, of all sets of this kind'),
  purchase: money().describe('price of the device or set'),
  lifeUses: count().describe('uses in the life of the device or set'),
  repairsPerYear: money().describe('repair and replacement of parts in a year, of all sets of this kind'),
  staffMinutes: amount(0, 10_000).describe('minutes of staff for one round, as measured'),
  staffHour: money().describe('an hour of staff'),
  consumables: money().describe('wrap, indicators in the pack, brushes, disposal, for one use'),
  waterLitre: money().describe('a litre of the water used'),
  kilowattHour: money().describe('a kWh'),
  load: LoadFigures.nullable().describe('null for what is used once'),
  turnaroundHours: amount(0, 10_000).describe('hours from use until it is ready again'),
  hoursOpenPerYear: amount(1, 8784).describe('hours in a year in which the unit works'),
  interest: amount(0, 1).describe('yearly rate of interest, 0.03 for 3 %'),
})
export type UseFigures = z.infer<typeof UseFigures>

type LoadNumbers = Readonly<Record<keyof z.infer<typeof LoadFigures>, number>>
/** The same with one number for each figure. */
export interface UseNumbers extends Readonly<Record<Exclude<keyof UseFigures, 'load'>, number>> {
  readonly load: LoadNumbers | null
}

export const parts = [
  'purchase',
  'repairs',
  'staff',
  'consumables',
  'water',
  'power',
  'chemicals',
  'machine',
  'tests',
  'turnaround',
] as const
export type Part = (typeof parts)[number]

/** What one use costs, part by part, in the currency of the figures. */
export function partsOfUse(given: UseNumbers): Readonly<Record<Part, number>> {
  const { load } = given
  const perSet = (ofLoad: number): number => (load === null ? 0 : ofLoad / load.setsPerLoad)
  const perYear = (ofYear: number): number => (load === null ? 0 : perSet(ofYear / load.loadsPerYear))
  return {
    purchase: given.purchase / given.lifeUses,
    repairs: given.repairsPerYear / given.usesPerYear,
    staff: (given.staffMinutes / 60) * given.staffHour,
    consumables: given.consumables,
    water: perSet((load?.waterLitres ?? 0) * given.waterLitre),
    power: perSet((load?.kilowattHours ?? 0) * given.kilowattHour),
    chemicals: perSet(load?.chemicals ?? 0),
    machine:
      load === null
        ? 0
        : perYear(load.machinePrice / annuityFactor(given.interest, load.machineLifeYears) + load.maintenancePerYear),
    tests: perYear(load?.testsPerYear ?? 0),
    // The money that lies in a set while it goes round and serves nobody.
    turnaround:
      given.lifeUses === 1 ? 0 : (given.purchase * given.interest * given.turnaroundHours) / given.hoursOpenPerYear,
  }
}

export function costOfUse(given: UseNumbers): number {
  const each = partsOfUse(given)
  return parts.reduce((sum, part) => sum + each[part], 0)
}

/** Where more of it makes a use cheaper. */
const cheapens: ReadonlySet<string> = new Set([
  'usesPerYear',
  'lifeUses',
  'hoursOpenPerYear',
  'load.setsPerLoad',
  'load.loadsPerYear',
  'load.machineLifeYears',
])

/** The names of the figures that are asked for, those of a load after `load.`. */
export function figureNames(figures: UseFigures): readonly string[] {
  const own = Object.keys(figures).filter((name) => name !== 'load')
  return [...own, ...Object.keys(figures.load ?? {}).map((name) => `load.${name}`)]
}

/** One number for each figure: as `end` says of the name. */
export function numbersAt(figures: UseFigures, end: (name: string) => keyof Amount): UseNumbers {
  const { load, ...own } = figures
  const at = <Each extends Record<string, Amount>>(each: Each, before: string) =>
    Object.fromEntries(Object.entries(each).map(([name, figure]) => [name, figure[end(`${before}${name}`)]])) as Record<
      keyof Each,
      number
    >
  return { ...at(own, ''), load: load === null ? null : at(load, 'load.') }
}

/** All figures at the end at which a use is cheapest, or dearest: every part goes one way with every figure. */
export function extreme(figures: UseFigures, which: 'cheapest' | 'dearest'): UseNumbers {
  return numbersAt(figures, (name) => ((which === 'cheapest') === cheapens.has(name) ? 'high' : 'low'))
}

export interface Swing {
  readonly figure: string
  readonly atLow: number
  readonly atHigh: number
  readonly swing: number
}

/** What each figure alone moves, the others as they most likely are; the greatest first. Those that are known move nothing. */
export function swingsOf(figures: UseFigures): readonly Swing[] {
  const cost = (figure: string, end: keyof Amount): number =>
    costOfUse(numbersAt(figures, (name) => (name === figure ? end : 'likely')))
  return figureNames(figures)
    .map((figure) => {
      const [atLow, atHigh] = [cost(figure, 'low'), cost(figure, 'high')]
      return { figure, atLow, atHigh, swing: Math.abs(atHigh - atLow) }
    })
    .filter(({ swing }) => swing > 0)
    .toSorted((a, b) => b.swing - a.swing)
}

/** How many sets there must be, so that one is ready for each use while others go round: not below 1. */
export function setsNeeded({ usesPerYear, turnaroundHours, hoursOpenPerYear }: UseNumbers): number {
  return Math.max(1, Math.ceil((usesPerYear * turnaroundHours) / hoursOpenPerYear - 1e-9))
}
