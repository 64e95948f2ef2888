import type { Found } from '../rule.ts'
import type { BathProduct } from './products.ts'
import { cystoscopyAnaphylaxis, labelDecides, tolerantMycobacteria } from './sources.ts'

/** What speaks against a bath because of what goes in or whom it is for. */
export interface BathGoods {
  readonly implant: boolean | null
  readonly urological: boolean | null
  /** Whether the patient that it is for has had bladder cancer. */
  readonly bladderCancer: 'yes' | 'no' | 'notKnown'
  readonly mycobacteriaSuspected: boolean
}

/** Implants are never treated in a bath. */
export function noImplant({ implant }: Pick<BathGoods, 'implant'>): readonly Found[] {
  if (implant === false) return []
  return [
    {
      weight: implant === null ? 'notEvaluable' : 'stop',
      says:
        implant === null
          ? 'It is not recorded whether this holds an implant. An implant never goes into a bath.'
          : 'An implant never goes into a bath: it is sterilised in a load with a biological indicator.',
      source: labelDecides,
    },
  ]
}

/** Ortho-phthalaldehyde is barred for urological instruments of a patient who had bladder cancer. */
export function noUrologyWithBladderCancer(
  product: BathProduct,
  { urological, bladderCancer }: Pick<BathGoods, 'urological' | 'bladderCancer'>,
): readonly Found[] {
  if (product.family !== 'orthoPhthalaldehyde' || urological === false) return []
  const unknown = urological === null || bladderCancer === 'notKnown'
  if (!unknown && bladderCancer === 'no') {
    return [
      {
        weight: 'caution',
        says: 'Ortho-phthalaldehyde is hard to rinse off: other products suit urological instruments better.',
        source: cystoscopyAnaphylaxis,
      },
    ]
  }
  return [
    {
      weight: unknown ? 'notEvaluable' : 'stop',
      says: unknown
        ? 'Ask whether this is a urological instrument and whether the patient has had bladder cancer: then it must not be treated with ortho-phthalaldehyde.'
        : 'Urological instruments for a patient who had bladder cancer are not treated with ortho-phthalaldehyde: anaphylaxis has followed. Use another product or sterilise.',
      source: cystoscopyAnaphylaxis,
    },
  ]
}

/** Glutaraldehyde is not relied on where mycobacteria are suspected. */
export function noGlutaraldehydeForMycobacteria(
  product: BathProduct,
  { mycobacteriaSuspected }: Pick<BathGoods, 'mycobacteriaSuspected'>,
): readonly Found[] {
  if (product.family !== 'glutaraldehyde' || !mycobacteriaSuspected) return []
  return [
    {
      weight: 'stop',
      says: 'Glutaraldehyde is slow against mycobacteria and some strains survive it. Sterilise instead, and have water, trays and sleeves sampled.',
      source: tolerantMycobacteria,
    },
  ]
}
