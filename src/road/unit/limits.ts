import type { Limit } from '../policy.ts'
import type { Source } from '#units/source.ts'

export const recordPractice: Source = {
  title: 'Records and traceability',
  clause: 'an entry is made when the step is done',
  status: 'proposal',
}

export const lateEntryHours: Limit<number> = {
  id: 'late-entry-hours',
  title: 'An entry made this long after the step is marked as late',
  unit: 'hours',
  value: 12,
  source: recordPractice,
  allowed: { from: 1, to: 168 },
}

export const clockAheadMinutes: Limit<number> = {
  id: 'clock-ahead-minutes',
  title: 'How far a step may lie in the future before its clock is doubted',
  unit: 'minutes',
  value: 5,
  source: recordPractice,
  allowed: { from: 1, to: 120 },
}

export const unitLimits = Object.freeze([lateEntryHours, clockAheadMinutes] as const)
