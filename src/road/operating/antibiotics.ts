import { z } from 'zod'
import type { Limit } from '../policy.ts'
import { prophylaxisDoses } from './sources.ts'

export const Antibiotic = z.enum([
  'ampicillinSulbactam',
  'ampicillin',
  'aztreonam',
  'cefazolin',
  'cefuroxime',
  'cefotaxime',
  'cefoxitin',
  'cefotetan',
  'ceftriaxone',
  'ciprofloxacin',
  'clindamycin',
  'ertapenem',
  'fluconazole',
  'gentamicin',
  'levofloxacin',
  'metronidazole',
  'moxifloxacin',
  'piperacillinTazobactam',
  'vancomycin',
])
export type Antibiotic = z.infer<typeof Antibiotic>

/** How much an adult is given: a fixed dose, or so much for each kilogram. */
export type Dose =
  | { readonly kind: 'fixed'; readonly mg: number }
  | { readonly kind: 'heavier'; readonly mg: number; readonly fromKg: number; readonly heavyMg: number }
  | { readonly kind: 'byWeight'; readonly mgPerKg: number; readonly adjusted: boolean }

interface AntibioticFacts {
  readonly name: string
  readonly dose: Dose
  /** Half-life in hours with healthy kidneys. */
  readonly halfLife: readonly [number, number]
  /** Hours from the start of the first dose to the next in a long operation; null: none is needed. */
  readonly redoseHours: number | null
  /** Infused slowly: it may be begun up to two hours before incision. */
  readonly slow: boolean
  /** Not given again for loss of blood. */
  readonly notForBloodLoss: boolean
}

const usual = { slow: false, notForBloodLoss: false }

function drug(
  name: string,
  mg: number,
  halfLife: readonly [number, number],
  redoseHours: number | null,
): AntibioticFacts {
  return { name, dose: { kind: 'fixed', mg }, halfLife, redoseHours, ...usual }
}

/** The drugs of prophylaxis: dose of an adult, half-life, when to repeat. */
export const antibiotics: Readonly<Record<Antibiotic, AntibioticFacts>> = Object.freeze({
  ampicillinSulbactam: drug('ampicillin-sulbactam', 3000, [0.8, 1.3], 2),
  ampicillin: drug('ampicillin', 2000, [1, 1.9], 2),
  aztreonam: drug('aztreonam', 2000, [1.3, 2.4], 4),
  cefazolin: {
    ...drug('cefazolin', 2000, [1.2, 2.2], 4),
    dose: { kind: 'heavier', mg: 2000, fromKg: 120, heavyMg: 3000 },
  },
  cefuroxime: drug('cefuroxime', 1500, [1, 2], 4),
  cefotaxime: drug('cefotaxime', 1000, [0.9, 1.7], 3),
  cefoxitin: drug('cefoxitin', 2000, [0.7, 1.1], 2),
  cefotetan: drug('cefotetan', 2000, [2.8, 4.6], 6),
  ceftriaxone: drug('ceftriaxone', 2000, [5.4, 10.9], null),
  ciprofloxacin: { ...drug('ciprofloxacin', 400, [3, 7], null), slow: true },
  clindamycin: drug('clindamycin', 900, [2, 4], 6),
  ertapenem: drug('ertapenem', 1000, [3, 5], null),
  fluconazole: drug('fluconazole', 400, [30, 30], null),
  gentamicin: {
    ...drug('gentamicin', 0, [2, 3], null),
    dose: { kind: 'byWeight', mgPerKg: 5, adjusted: true },
    notForBloodLoss: true,
  },
  levofloxacin: { ...drug('levofloxacin', 500, [6, 8], null), slow: true },
  metronidazole: drug('metronidazole', 500, [6, 8], null),
  moxifloxacin: { ...drug('moxifloxacin', 400, [8, 15], null), slow: true },
  piperacillinTazobactam: drug('piperacillin-tazobactam', 3375, [0.7, 1.2], 2),
  vancomycin: {
    ...drug('vancomycin', 0, [4, 8], null),
    dose: { kind: 'byWeight', mgPerKg: 15, adjusted: false },
    slow: true,
    notForBloodLoss: true,
  },
})

/** When each drug is repeated, for those that are. */
export const redoseHours: Readonly<Partial<Record<Antibiotic, Limit<number>>>> = Object.freeze(
  Object.fromEntries(
    Antibiotic.options.flatMap((id) => {
      const { name, redoseHours: value } = antibiotics[id]
      if (value === null) return []
      const limit: Limit<number> = {
        id: `redose-hours-${name}`,
        title: `Hours from the first dose of ${name} to the next in a long operation, healthy kidneys`,
        unit: 'hours',
        value,
        source: prophylaxisDoses,
        allowed: { from: 1, to: 12 },
      }
      return [[id, limit] as const]
    }),
  ),
)
