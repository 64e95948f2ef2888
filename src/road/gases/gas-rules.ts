import type { AnyRule } from '../rule.ts'
import { aerationDone } from './rules/aeration-done.ts'
import { aerationInterrupted } from './rules/aeration-interrupted.ts'
import { aerationPlanned } from './rules/aeration-planned.ts'
import { cancelledNotSterile } from './rules/cancelled-not-sterile.ts'
import { exposureWithinLimits } from './rules/exposure-within-limits.ts'
import { loadOfRepacked } from './rules/load-of-repacked.ts'
import { loadPacksFitMethod } from './rules/load-packs-fit-method.ts'
import { loadWithinClaims } from './rules/load-within-claims.ts'
import { releaseAerated } from './rules/release-aerated.ts'
import { releaseNotCancelled } from './rules/release-not-cancelled.ts'
import { releasePacksFitMethod } from './rules/release-packs-fit-method.ts'
import { releaseResidues } from './rules/release-residues.ts'
import { residuesWithinLimits } from './rules/residues-within-limits.ts'

/** The rules of the low-temperature methods, in the order in which their findings read. */
export const gasRules: readonly AnyRule[] = Object.freeze([
  loadOfRepacked,
  loadPacksFitMethod,
  loadWithinClaims,
  cancelledNotSterile,
  aerationPlanned,
  aerationDone,
  aerationInterrupted,
  residuesWithinLimits,
  exposureWithinLimits,
  releaseNotCancelled,
  releasePacksFitMethod,
  releaseAerated,
  releaseResidues,
])
