import type { Limit } from '../policy.ts'
import { portOnset, portRules } from './sources.ts'

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

export const woundLimits = Object.freeze([lateOnsetDays, clusterDays, clusterCases] as const)
