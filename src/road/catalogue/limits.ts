import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'
import { laparoscopes, lifeLimit, loanGuidance } from './sources.ts'

export const brushing: Source = {
  title: 'ANSI/AAMI ST79 and AORN, from memory',
  clause: 'a brush slightly wider than the lumen and longer than it',
  status: 'unverified',
}

export const hldForLaparoscope: Limit<boolean> = {
  id: 'high-level-for-laparoscope',
  title: 'Let a laparoscope be disinfected at high level where it cannot be sterilised',
  unit: 'yes or no',
  value: false,
  source: { ...laparoscopes, clause: 'sterilise before each use; high level is the minimum, debated' },
}

export const loanKnownHours: Limit<number> = {
  id: 'loan-hours-known-set',
  title: 'A loan set known here arrives so long before the case',
  unit: 'h',
  value: 48,
  source: loanGuidance,
  allowed: { from: 12, to: 336 },
}

export const loanNewHours: Limit<number> = {
  id: 'loan-hours-new-set',
  title: 'A loan set new here arrives so long before the case',
  unit: 'h',
  value: 72,
  source: loanGuidance,
  allowed: { from: 12, to: 336 },
}

export const lifeWarningUses: Limit<number> = {
  id: 'life-warning-uses',
  title: 'Uses left to the end of life that are said aloud',
  unit: 'uses',
  value: 5,
  source: { ...lifeLimit, clause: 'when to order the next' },
  allowed: { from: 0, to: 100 },
}

export const brushWiderPercent: Limit<number> = {
  id: 'brush-wider-percent',
  title: 'Brush wider than the lumen by so much',
  unit: '%',
  value: 5,
  source: { ...brushing, clause: 'bristles slightly wider than the lumen; 5 % is a figure chosen here' },
  allowed: { from: 0, to: 30 },
}

export const brushLongerMm: Limit<number> = {
  id: 'brush-longer-mm',
  title: 'Brush longer than the lumen by so much, so that it shows at the far end',
  unit: 'mm',
  value: 50,
  source: { ...brushing, clause: 'longer than the lumen; 50 mm is a figure chosen here' },
  allowed: { from: 10, to: 300 },
}

export const flushVolumes: Limit<number> = {
  id: 'flush-lumen-volumes',
  title: 'Times the volume of a lumen that go through it',
  unit: 'volumes',
  value: 3,
  source: { title: 'Flushing of lumens', clause: 'no universal figure was found', status: 'proposal' },
  allowed: { from: 1, to: 50 },
}

export const flushFlow: Limit<number> = {
  id: 'flush-flow',
  title: 'Flow at the far end of a lumen while it is flushed',
  unit: 'mL/min',
  value: 60,
  source: { title: 'Flushing of lumens', clause: 'flow of a hand syringe; measure yours', status: 'proposal' },
  allowed: { from: 1, to: 5000 },
}

export const ultrasoundMinutes: Limit<number> = {
  id: 'ultrasound-minutes',
  title: 'Ultrasound, at least',
  unit: 'min',
  value: 5,
  source: {
    title: 'Instructions of several instrument makers',
    clause: 'ultrasound 5 to 10 min, not above 50 °C; those of your maker decide',
    status: 'confirmed',
  },
  allowed: { from: 1, to: 60 },
}

export const enzymaticMinutes: Limit<number> = {
  id: 'enzymatic-soak-minutes',
  title: 'Enzymatic soak, at least',
  unit: 'min',
  value: 5,
  source: {
    title: 'Instructions of several instrument makers',
    clause: 'enzymatic soak of 5 min or more; those of your maker decide',
    status: 'confirmed',
  },
  allowed: { from: 1, to: 60 },
}

export const catalogueLimits = Object.freeze([
  hldForLaparoscope,
  loanKnownHours,
  loanNewHours,
  lifeWarningUses,
  brushWiderPercent,
  brushLongerMm,
  flushVolumes,
  flushFlow,
  ultrasoundMinutes,
  enzymaticMinutes,
] as const)
