import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'
import { airRecalled, airTable, gasInAir, surveillanceDays } from './sources.ts'

/* What the air of a room may hold of a vapour: mean of 8 h, mean of 15 min, a ceiling, and where action is due. */

export const vapours = [
  'ethyleneOxide',
  'hydrogenPeroxide',
  'formaldehyde',
  'glutaraldehyde',
  'peraceticAcid',
  'ozone',
] as const
export type Vapour = (typeof vapours)[number]

export interface AirLimits {
  readonly name: string
  readonly shift: Limit<number> | null
  readonly quarter: Limit<number> | null
  readonly ceiling: Limit<number> | null
  readonly action: Limit<number> | null
}

function ppm(id: string, title: string, value: number, source: Source): Limit<number> {
  return {
    id: `air-${id}`,
    title: `Air: ${title}`,
    unit: 'ppm',
    value,
    source,
    allowed: { from: value / 100, to: value * 2 },
  }
}

const none = { shift: null, quarter: null, ceiling: null, action: null }

export const airLimitsOf: Readonly<Record<Vapour, AirLimits>> = {
  ethyleneOxide: {
    ...none,
    name: 'ethylene oxide',
    shift: ppm('ethylene-oxide-8-h', 'ethylene oxide, mean of 8 h', 1, gasInAir),
    quarter: ppm('ethylene-oxide-15-min', 'ethylene oxide, mean of any 15 min', 5, gasInAir),
    action: ppm('ethylene-oxide-action', 'ethylene oxide, mean of 8 h from which action is due', 0.5, gasInAir),
  },
  hydrogenPeroxide: {
    ...none,
    name: 'hydrogen peroxide',
    shift: ppm('hydrogen-peroxide-8-h', 'hydrogen peroxide, mean of 8 h', 1, airTable),
  },
  formaldehyde: {
    ...none,
    name: 'formaldehyde',
    shift: ppm('formaldehyde-8-h', 'formaldehyde, mean of 8 h', 0.75, airRecalled),
    quarter: ppm('formaldehyde-15-min', 'formaldehyde, mean of any 15 min', 2, airRecalled),
    action: ppm('formaldehyde-action', 'formaldehyde, mean of 8 h from which action is due', 0.5, airRecalled),
  },
  glutaraldehyde: {
    ...none,
    name: 'glutaraldehyde',
    ceiling: ppm('glutaraldehyde-ceiling', 'glutaraldehyde, at any moment', 0.05, airTable),
  },
  peraceticAcid: {
    ...none,
    name: 'peracetic acid',
    quarter: ppm('peracetic-acid-15-min', 'peracetic acid, mean of any 15 min', 0.4, airRecalled),
  },
  ozone: { ...none, name: 'ozone', shift: ppm('ozone-8-h', 'ozone, mean of 8 h', 0.1, airRecalled) },
}

export const surveillanceFromDays: Limit<number> = {
  id: 'surveillance-from-days',
  title: 'Days a year at or above the action level from which medical surveillance is due',
  unit: 'days',
  value: 30,
  source: surveillanceDays,
  allowed: { from: 1, to: 30 },
}

export const airLimits: readonly Limit<number>[] = [
  ...vapours.flatMap((vapour) => {
    const { shift, quarter, ceiling, action } = airLimitsOf[vapour]
    return [shift, quarter, ceiling, action].filter((limit) => limit !== null)
  }),
  surveillanceFromDays,
]
