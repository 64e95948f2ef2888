import type { Limit } from '../policy.ts'
import { cdcPositiveIndicator, recallProposal } from '../sterilising/sources.ts'

export const recallOnSinglePositive: Limit<boolean> = {
  id: 'recall-on-single-positive',
  title: 'A single biological failure recalls every load since the last good result at once',
  unit: 'yes or no',
  value: false,
  source: cdcPositiveIndicator,
}

export const recallFailedLoadAlways: Limit<boolean> = {
  id: 'recall-failed-load-always',
  title: 'The failed load itself is recalled at once, whatever the repeats show',
  unit: 'yes or no',
  value: false,
  source: recallProposal,
}

export const goodResultPerProgram: Limit<boolean> = {
  id: 'good-result-per-program',
  title: 'The last good result is looked for in loads of the same program only',
  unit: 'yes or no',
  value: false,
  source: recallProposal,
}

export const repeatsNeeded: Limit<number> = {
  id: 'repeats-needed',
  title: 'Consecutive good biological results that clear a single failure',
  unit: 'cycles',
  value: 3,
  source: cdcPositiveIndicator,
  allowed: { from: 3, to: 10 },
}

export const repeatsWithinDays: Limit<number> = {
  id: 'repeats-within-days',
  title: 'Repeat tests count for a recall until this long after it was opened',
  unit: 'days',
  value: 30,
  source: recallProposal,
  allowed: { from: 7, to: 365 },
}

export const cycleWithinHours: Limit<number> = {
  id: 'cycle-within-hours',
  title: 'Longest time between building a load and the end of its cycle; a recall looks this far beyond its edges',
  unit: 'hours',
  value: 72,
  source: recallProposal,
  allowed: { from: 24, to: 336 },
}

export const tracingLimits = Object.freeze([
  recallOnSinglePositive,
  recallFailedLoadAlways,
  goodResultPerProgram,
  repeatsNeeded,
  repeatsWithinDays,
  cycleWithinHours,
] as const)
