import { exposureSteps, type ExposureStep } from '../../tracing/exposure-steps.ts'
import { portRules } from '../sources.ts'

/** The steps of an investigation: those after an exposure, and before them what tells whether there is a rise at all. */
export const investigationSteps = [
  'confirmCases',
  'confirmRise',
  'describe',
  'confirm',
  'embargo',
  'stop',
  'inform',
  'cause',
  'lineList',
  'risk',
  'update',
  'correct',
  'harm',
  'authorities',
  'patients',
  'follow',
  'report',
] as const
export type InvestigationStep = (typeof investigationSteps)[number]

const first: readonly ExposureStep[] = [
  {
    id: 'confirmCases',
    says: 'Look at each wound again by the case definition; ask for cultures and acid-fast stains.',
    source: portRules,
  },
  {
    id: 'confirmRise',
    says: 'Compare with the usual rate, with its interval and with how many were followed up.',
    source: portRules,
  },
  { id: 'describe', says: 'Describe the cases by time, place and person before testing anything.', source: portRules },
]

/** Every step with its words and where it comes from, in order. */
export const investigationChecklist: readonly ExposureStep[] = Object.freeze([...first, ...exposureSteps])
