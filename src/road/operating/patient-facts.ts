import { z } from 'zod'
import type { PrionFacts } from '../catalogue/route/ask.ts'

/*
 * What a patient has that bars a method, a bath or a set. Every answer has its own value for what is not known: nothing
 * said is not a no.
 */

export const allergens = [
  'latex',
  'glutaraldehyde',
  'orthoPhthalaldehyde',
  'peroxygen',
  'chlorine',
  'ethyleneOxide',
  'formaldehyde',
] as const
export type Allergen = (typeof allergens)[number]

export const PatientFacts = z.strictObject({
  prion: z.enum(['noSuspicion', 'suspected', 'sporadic', 'inherited', 'variant', 'atRisk', 'notKnown']),
  /** The most infective tissue that the operation touches. */
  tissue: z.enum(['high', 'medium', 'low', 'none', 'notStated']),
  mycobacteria: z.enum(['no', 'suspected', 'infection', 'notKnown']),
  bladderCancer: z.enum(['yes', 'no', 'notKnown']),
  /** Whether the patient was asked about allergies: an empty list of one who was not asked says nothing. */
  allergiesAsked: z.boolean(),
  allergies: z.array(z.enum(allergens)).max(allergens.length),
})
export type PatientFacts = z.infer<typeof PatientFacts>

/** The facts by which the way after a patient is decided; a risk that is not known waits as a suspected one does. */
export function prionFactsOf({ prion, tissue }: Pick<PatientFacts, 'prion' | 'tissue'>): PrionFacts {
  return { patient: prion === 'notKnown' ? 'suspected' : prion, tissue }
}
