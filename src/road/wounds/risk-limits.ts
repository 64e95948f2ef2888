import { Procedure } from '../operating/procedures.ts'
import type { Limit } from '../policy.ts'
import { cutPointsRecalled, laparoscopeScheme, noCutPoint, ownPercentile } from './sources.ts'

/* The choices behind the risk index of an operation. */

export const laparoscopyModifier: Limit<string> = {
  id: 'risk-index-laparoscope',
  title: 'Whether the risk index takes account of the laparoscope',
  unit: '',
  value: 'notUsed',
  source: laparoscopeScheme,
  allowed: { oneOf: ['notUsed', 'scheme2001'] },
}

export const durationCutFrom: Limit<string> = {
  id: 'duration-cut-from',
  title:
    'Where the cut point of duration comes from: the unit’s own 75th percentile, or the one given for each operation',
  unit: '',
  value: 'own',
  source: ownPercentile,
  allowed: { oneOf: ['own', 'given'] },
}

export const durationCutLeast: Limit<number> = {
  id: 'duration-cut-least',
  title: 'Operations of one kind below which the own 75th percentile of duration is not used',
  unit: 'operations',
  value: 20,
  source: ownPercentile,
  allowed: { from: 4, to: 500 },
}

/** Published cut points, as far as any is known. */
const published: Readonly<Partial<Record<Procedure, number>>> = {
  cholecystectomy: 99,
  appendectomy: 81,
  inguinalHernia: 124,
  ventralHernia: 124,
  colectomy: 187,
}

const plainNames: Readonly<Record<Procedure, string>> = {
  inguinalHernia: 'groin hernia',
  ventralHernia: 'hernia of the abdominal wall',
  splenectomy: 'spleen',
  adrenalectomy: 'adrenal gland',
  fundoplication: 'fundoplication',
  varicocele: 'varicocele',
  diagnosticLaparoscopy: 'diagnostic laparoscopy',
  tubalLigation: 'tubal ligation',
  cholecystectomy: 'gall bladder',
  bileDuct: 'bile duct',
  bariatric: 'bariatric',
  colectomy: 'colon',
  rectal: 'rectum',
  smallBowel: 'small bowel',
  appendectomy: 'appendix',
  hysterectomy: 'uterus',
  nephrectomy: 'kidney',
  cystotomy: 'bladder',
  perforatedUlcer: 'perforated ulcer',
  other: 'other',
}

function givenCut(procedure: Procedure): Limit<number> {
  const value = published[procedure] ?? 0
  return {
    id: `duration-cut-${procedure}`,
    title: `Given cut point of duration, ${plainNames[procedure]} (0: none given)`,
    unit: 'min',
    value,
    source: value === 0 ? noCutPoint : cutPointsRecalled,
    allowed: { from: 0, to: 1440 },
  }
}

/** The given cut point of each kind of operation. */
export const givenDurationCuts = Object.freeze(
  Object.fromEntries(Procedure.options.map((procedure) => [procedure, givenCut(procedure)])),
) as Readonly<Record<Procedure, Limit<number>>>

export const riskLimits: readonly Limit[] = Object.freeze([
  laparoscopyModifier,
  durationCutFrom,
  durationCutLeast,
  ...Procedure.options.map((procedure) => givenDurationCuts[procedure]),
])
