import type { Limit } from '../policy.ts'
import { riskLimits } from './risk-limits.ts'
import { eventsPerFactor, followUpPlan, lateMycobacteria, longOperation, portOnset, portRules } from './sources.ts'

export const lateOnsetDays: Limit<number> = {
  id: 'late-onset-days',
  title: 'Days from operation to onset from which a port-site infection may be mycobacterial',
  unit: 'days',
  value: 21,
  source: portOnset,
  allowed: { from: 7, to: 60 },
}

export const clusterDays: Limit<number> = {
  id: 'port-cluster-days',
  title: 'Late port-site infections within this many days that share something are a cluster',
  unit: 'days',
  value: 90,
  source: portRules,
  allowed: { from: 30, to: 365 },
}

export const clusterCases: Limit<number> = {
  id: 'port-cluster-cases',
  title: 'How many make a cluster',
  unit: 'cases',
  value: 2,
  source: portRules,
  allowed: { from: 2, to: 5 },
}

export const firstCallDay: Limit<number> = {
  id: 'follow-up-first-day',
  title: 'Day on which a patient is first called after an operation',
  unit: 'day',
  value: 10,
  source: followUpPlan,
  allowed: { from: 3, to: 21 },
}

export const lateCallDay: Limit<number> = {
  id: 'follow-up-late-day',
  title: 'Day of the last call, for slow organisms at ports',
  unit: 'day',
  value: 90,
  source: lateMycobacteria,
  allowed: { from: 60, to: 365 },
}

export const callGraceDays: Limit<number> = {
  id: 'follow-up-grace-days',
  title: 'Days after which a follow-up that is due is overdue',
  unit: 'days',
  value: 7,
  source: followUpPlan,
  allowed: { from: 1, to: 30 },
}

export const lostAfterDays: Limit<number> = {
  id: 'follow-up-lost-days',
  title: 'Days overdue after which a follow-up counts as lost',
  unit: 'days',
  value: 30,
  source: followUpPlan,
  allowed: { from: 7, to: 120 },
}

export const modelInfections: Limit<number> = {
  id: 'model-infections-per-factor',
  title: 'Infections for each factor, below which a model of risk is unsure',
  unit: 'infections',
  value: 5,
  source: eventsPerFactor,
  allowed: { from: 1, to: 20 },
}

export const longOperationMinutes: Limit<number> = {
  id: 'long-operation-minutes',
  title: 'Length above which an operation counts as long when exposures are compared',
  unit: 'min',
  value: 60,
  source: longOperation,
  allowed: { from: 30, to: 600 },
}

export const woundLimits = Object.freeze([
  lateOnsetDays,
  clusterDays,
  clusterCases,
  firstCallDay,
  lateCallDay,
  callGraceDays,
  lostAfterDays,
  modelInfections,
  longOperationMinutes,
  ...riskLimits,
] as const)
