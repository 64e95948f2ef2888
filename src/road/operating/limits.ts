import type { Limit } from '../policy.ts'
import { redoseHours } from './antibiotics.ts'
import { lowRiskGallBladder, prophylaxisBloodLoss, prophylaxisTiming } from './sources.ts'

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

export const operatingLimits: readonly Limit[] = Object.freeze([
  antibioticWithinMinutes,
  slowAntibioticWithinMinutes,
  redoseBloodLossMl,
  lowRiskCholecystectomy,
  ...Object.values(redoseHours),
])
