import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'
import { labelStock } from './labels/stock.ts'

export const st79Packs: Source = {
  title: 'ANSI/AAMI ST79, as quoted in training texts',
  clause: 'packs and their indicators',
  status: 'secondary',
}

export const makersInstructions: Source = {
  title: 'Instructions of the instrument maker',
  clause: 'they decide over the general rule',
  status: 'proposal',
}

export const setRecord: Source = {
  title: 'Records of a set',
  clause: 'count in and out, inspection, function, insulation test',
  status: 'unverified',
}

export const singleUseGuidance: Source = {
  title: 'WHO guidance on single-use devices',
  clause: 'not to be used again',
  status: 'secondary',
}

export const setMassKg: Limit<number> = {
  id: 'set-mass-kg',
  title: 'Heaviest set, wrap or container included',
  unit: 'kg',
  value: 11.3,
  source: { ...st79Packs, clause: 'set mass: 25 lb' },
  allowed: { from: 1, to: 20 },
}

export const insideIndicatorTypes: Limit<string> = {
  id: 'inside-indicator-types',
  title: 'Types of chemical indicator allowed inside a pack',
  unit: 'types, ISO 11140-1',
  value: '4, 5',
  source: st79Packs,
  allowed: { oneOf: ['4, 5', '4, 5, 6', '5', '5, 6', '3, 4, 5, 6'] },
}

export const packingLimits = Object.freeze([setMassKg, insideIndicatorTypes, labelStock] as const)
