import type { Limit } from '../policy.ts'
import { prionRule } from '../catalogue/sources.ts'
import { redoseHours } from './antibiotics.ts'
import { implantInUnclean, lowRiskGallBladder, prophylaxisBloodLoss, prophylaxisTiming } from './sources.ts'

export const antibioticWithinMinutes: Limit<number> = {
  id: 'antibiotic-within-minutes',
  title: 'Earliest start of the antibiotic before incision',
  unit: 'minutes',
  value: 60,
  source: prophylaxisTiming,
  allowed: { from: 30, to: 120 },
}

export const slowAntibioticWithinMinutes: Limit<number> = {
  id: 'slow-antibiotic-within-minutes',
  title: 'Earliest start of vancomycin or a fluoroquinolone before incision',
  unit: 'minutes',
  value: 120,
  source: prophylaxisTiming,
  allowed: { from: 60, to: 180 },
}

export const redoseBloodLossMl: Limit<number> = {
  id: 'redose-blood-loss-ml',
  title: 'Loss of blood above which the antibiotic is given again',
  unit: 'mL',
  value: 1500,
  source: prophylaxisBloodLoss,
  allowed: { from: 500, to: 3000 },
}

export const lowRiskCholecystectomy: Limit<string> = {
  id: 'prophylaxis-low-risk-cholecystectomy',
  title: 'Antibiotic before an elective low-risk laparoscopic cholecystectomy',
  unit: 'policy',
  value: 'none',
  source: lowRiskGallBladder,
  allowed: { oneOf: ['none', 'give'] },
}

export const prionPrevacuumC: Limit<number> = {
  id: 'prion-prevacuum-c',
  title: 'Steam with prevacuum that reaches prions: at least so hot throughout the holding time',
  unit: '°C',
  value: 134,
  source: { ...prionRule, clause: 'prevacuum, 134 °C for 18 min or more' },
  allowed: { from: 134, to: 138 },
}

export const prionPrevacuumMinutes: Limit<number> = {
  id: 'prion-prevacuum-minutes',
  title: 'Steam with prevacuum that reaches prions: holding time',
  unit: 'minutes',
  value: 18,
  source: { ...prionRule, clause: 'prevacuum, 134 °C for 18 min or more' },
  allowed: { from: 18, to: 120 },
}

export const prionGravityC: Limit<number> = {
  id: 'prion-gravity-c',
  title: 'Steam by gravity that reaches prions: at least so hot throughout the holding time',
  unit: '°C',
  value: 132,
  source: { ...prionRule, clause: 'gravity, 132 °C for 60 min', status: 'unverified' },
  allowed: { from: 132, to: 138 },
}

export const prionGravityMinutes: Limit<number> = {
  id: 'prion-gravity-minutes',
  title: 'Steam by gravity that reaches prions: holding time',
  unit: 'minutes',
  value: 60,
  source: { ...prionRule, clause: 'gravity, 132 °C for 60 min', status: 'unverified' },
  allowed: { from: 60, to: 180 },
}

export const implantDecisionFrom: Limit<string> = {
  id: 'implant-decision-from-class',
  title: 'Wound class from which an implant needs a recorded decision',
  unit: 'wound class',
  value: 'II',
  source: implantInUnclean,
  allowed: { oneOf: ['II', 'III'] },
}

export const operatingLimits: readonly Limit[] = Object.freeze([
  antibioticWithinMinutes,
  slowAntibioticWithinMinutes,
  redoseBloodLossMl,
  lowRiskCholecystectomy,
  prionPrevacuumC,
  prionPrevacuumMinutes,
  prionGravityC,
  prionGravityMinutes,
  implantDecisionFrom,
  ...Object.values(redoseHours),
])
