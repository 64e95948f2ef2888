import type { Limit } from '../policy.ts'
import { bathContactBasis, bathProductLimits } from './products.ts'
import { bathProposal, labelFromMemory, rinseLabel } from './sources.ts'

export const rinseCount: Limit<number> = {
  id: 'bath-rinse-count',
  title: 'Separate rinses after a bath, each in fresh water',
  unit: 'rinses',
  value: 3,
  source: rinseLabel,
  allowed: { from: 1, to: 10 },
}

export const rinseMinutes: Limit<number> = {
  id: 'bath-rinse-minutes',
  title: 'Shortest time of each rinse',
  unit: 'minutes',
  value: 1,
  source: rinseLabel,
  allowed: { from: 0.5, to: 10 },
}

export const rinseLitres: Limit<number> = {
  id: 'bath-rinse-litres',
  title: 'Least water of each rinse; small items need about half',
  unit: 'litres',
  value: 8,
  source: rinseLabel,
  allowed: { from: 1, to: 50 },
}

export const rinseLumenMillilitres: Limit<number> = {
  id: 'bath-rinse-lumen-ml',
  title: 'Least water flushed through each lumen in each rinse',
  unit: 'ml',
  value: 100,
  source: rinseLabel,
  allowed: { from: 10, to: 1000 },
}

export const stripReadFromSeconds: Limit<number> = {
  id: 'bath-strip-read-from-seconds',
  title: 'Earliest reading of a strength strip',
  unit: 's',
  value: 75,
  source: labelFromMemory,
  allowed: { from: 1, to: 600 },
}

export const stripReadToSeconds: Limit<number> = {
  id: 'bath-strip-read-to-seconds',
  title: 'Latest reading of a strength strip',
  unit: 's',
  value: 90,
  source: labelFromMemory,
  allowed: { from: 1, to: 900 },
}

export const stripBottleDays: Limit<number> = {
  id: 'bath-strip-bottle-days',
  title: 'Longest use of a bottle of strips after it was opened',
  unit: 'days',
  value: 90,
  source: { ...labelFromMemory, clause: '90 or 120 days by the product' },
  allowed: { from: 1, to: 365 },
}

export const stripControls: Limit<number> = {
  id: 'bath-strip-controls',
  title: 'Strips tried in full strength, and as many in half strength, when a bottle is opened',
  unit: 'strips',
  value: 3,
  source: { ...labelFromMemory, clause: 'three and three' },
  allowed: { from: 1, to: 10 },
}

export const stripFreshMinutes: Limit<number> = {
  id: 'bath-strip-fresh-minutes',
  title: 'Longest time from reading the strip to the immersion that it is for',
  unit: 'minutes',
  value: 60,
  source: bathProposal,
  allowed: { from: 5, to: 480 },
}

export const temperatureFreshMinutes: Limit<number> = {
  id: 'bath-temperature-fresh-minutes',
  title: 'Longest time from reading the temperature to the immersion that it is for',
  unit: 'minutes',
  value: 60,
  source: bathProposal,
  allowed: { from: 5, to: 480 },
}

export const usedAtOnceMinutes: Limit<number> = {
  id: 'bath-used-at-once-minutes',
  title: 'Longest time from the decision to the use of what came out of a bath',
  unit: 'minutes',
  value: 60,
  source: bathProposal,
  allowed: { from: 5, to: 240 },
}

export const bathLimits: readonly Limit[] = Object.freeze([
  bathContactBasis,
  rinseCount,
  rinseMinutes,
  rinseLitres,
  rinseLumenMillilitres,
  stripReadFromSeconds,
  stripReadToSeconds,
  stripBottleDays,
  stripControls,
  stripFreshMinutes,
  temperatureFreshMinutes,
  usedAtOnceMinutes,
  ...bathProductLimits,
])
