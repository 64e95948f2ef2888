import { type Antibiotic, antibiotics } from './antibiotics.ts'

export type DoseAnswer =
  | { readonly kind: 'standardDose' | 'higherDose' | 'byWeight'; readonly mg: number; readonly dosingKg: number | null }
  | { readonly kind: 'heightNeeded' }

export interface Patient {
  readonly weightKg: number
  readonly heightCm?: number | undefined
  readonly sex?: 'female' | 'male' | undefined
}

/** The dose of an adult, by weight where the drug is given by weight. */
export function antibioticDose(drug: Antibiotic, patient: Patient): DoseAnswer {
  const { dose } = antibiotics[drug]
  switch (dose.kind) {
    case 'fixed':
      return { kind: 'standardDose', mg: dose.mg, dosingKg: null }
    case 'heavier':
      return patient.weightKg >= dose.fromKg
        ? { kind: 'higherDose', mg: dose.heavyMg, dosingKg: null }
        : { kind: 'standardDose', mg: dose.mg, dosingKg: null }
    case 'byWeight': {
      const kg = dose.adjusted ? adjustedWeightKg(patient) : patient.weightKg
      return kg === undefined
        ? { kind: 'heightNeeded' }
        : { kind: 'byWeight', mg: Math.round(kg * dose.mgPerKg), dosingKg: kg }
    }
  }
}

/** Ideal weight by height and sex (Devine); where the actual one is more than a fifth above it, ideal + 0.4 (actual − ideal). */
function adjustedWeightKg({ weightKg, heightCm, sex }: Patient): number | undefined {
  if (heightCm === undefined || sex === undefined) return undefined
  const ideal = (sex === 'male' ? 50 : 45.5) + 2.3 * (heightCm / 2.54 - 60)
  return weightKg > 1.2 * ideal ? ideal + 0.4 * (weightKg - ideal) : weightKg
}
