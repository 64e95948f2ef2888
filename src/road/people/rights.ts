import type { KindName } from '../kinds.ts'
import type { Role } from './entries.ts'

/*
 * Who may record what. The policy of a unit is made of people who have several roles, so a kind is given to the roles
 * whose task it is and to nobody for convenience. Reading is open to every role; an auditor reads and records nothing.
 */

const theatre = ['theatre', 'surgeonInCharge'] as const
const loop = ['reprocessing', 'theatre'] as const
const machines = ['reprocessing', 'manager'] as const
const wounds = ['infectionControl', 'surgeonInCharge'] as const
const wards = ['theatre', 'infectionControl', 'surgeonInCharge'] as const
const setUp = ['manager'] as const
const things = ['reprocessing', 'manager'] as const
const everyone = ['theatre', 'reprocessing', 'infectionControl', 'surgeonInCharge', 'trainer', 'manager'] as const

/** The roles that may record each kind of entry. None: the program alone does. */
export const rightsOfKinds: Readonly<Record<KindName, readonly Role[]>> = Object.freeze({
  'unit-opened': [],
  'limit-changed': setUp,
  // By the right to the entry that is withdrawn: see `mayRecord`.
  'entry-withdrawn': everyone,
  'hours-set': setUp,
  'person-registered': setUp,
  'person-left': setUp,
  'exposure-measured': everyone,

  'device-registered': things,
  'item-registered': things,
  'item-sent-out': things,
  'item-repaired': things,
  'item-retired': things,
  'item-insulation-tested': things,
  'set-registered': things,
  'item-moved': loop,
  'loan-arrived': things,
  'loan-returned': things,

  'use-ended': loop,
  'reprocessing-started': ['reprocessing'],
  'soak-started': loop,
  'wash-recorded': ['reprocessing'],
  inspected: ['reprocessing'],
  'outlet-registered': machines,
  'water-sampled': ['reprocessing', 'infectionControl', 'manager'],
  'cleaning-tested': ['reprocessing'],
  'foil-tested': ['reprocessing'],
  'pack-sealed': ['reprocessing'],

  'machine-registered': machines,
  'machine-withdrawn': machines,
  'machine-repaired': machines,
  'machine-returned': ['manager', 'surgeonInCharge'],
  'machine-calibrated': machines,
  'machine-serviced': machines,
  'load-built': ['reprocessing'],
  'air-removal-tested': ['reprocessing'],
  'leak-tested': ['reprocessing'],
  'cycle-logged': ['reprocessing'],
  'cycle-cancelled': ['reprocessing'],
  'chemical-read': loop,
  'biological-read': ['reprocessing', 'infectionControl'],
  'load-decided': ['reprocessing', 'surgeonInCharge'],
  'aeration-started': ['reprocessing'],
  'aeration-ended': ['reprocessing'],
  'aeration-stopped': ['reprocessing'],
  'residue-tested': ['reprocessing', 'infectionControl'],

  'bath-poured': loop,
  'bath-topped-up': loop,
  'bath-warmed': loop,
  'strip-bottle-opened': loop,
  'strip-read': loop,
  'immersion-started': loop,
  'immersion-ended': loop,
  'bath-rinsed': loop,
  'immersion-decided': [...loop, 'surgeonInCharge'],
  'bath-retired': loop,
  'bath-recalled': ['reprocessing', 'infectionControl', 'surgeonInCharge'],
  'spill-recorded': everyone,

  'lot-opened': loop,
  'lot-quality-controlled': loop,
  'lot-quarantined': [...loop, 'infectionControl', 'manager'],
  'lot-withdrawn': [...loop, 'infectionControl', 'manager'],
  'lot-used': loop,
  'lot-recalled': ['reprocessing', 'infectionControl', 'surgeonInCharge'],

  'pack-stored': loop,
  'pack-condition-noted': loop,
  'storage-measured': loop,

  'case-booked': wards,
  'patient-facts-noted': wards,
  'pack-opened': theatre,
  'case-recorded': theatre,
  'prevention-noted': theatre,
  'antibiotic-given': theatre,
  'implant-decided': ['surgeonInCharge'],
  'case-locked': theatre,
  'list-planned': theatre,

  'follow-up-made': wards,
  'follow-up-ended': wards,
  'wound-noted': wards,
  'wound-cultured': wards,
  'wound-treated': wards,
  'wound-judged': wounds,
  'sample-taken': ['infectionControl', 'reprocessing'],
  'sample-read': ['infectionControl'],
  'chart-set': wounds,
  'chart-restarted': wounds,
  'change-noted': [...wounds, 'manager'],
  'risk-model-kept': wounds,
  'investigation-opened': wounds,
  'investigation-window-set': wounds,
  'hypothesis-stated': wounds,
  'hypothesis-tested': wounds,
  'investigation-step-marked': wounds,
  'action-taken': [...wounds, 'manager'],
  'investigation-closed': wounds,

  'recall-opened': [...wounds, 'reprocessing', 'manager'],
  'recall-accounted': [...loop, 'infectionControl', 'surgeonInCharge'],
  'recall-closed': ['surgeonInCharge', 'infectionControl'],
})

/** Who sees who signed in, who was turned away, and who looked at which patient. */
export const auditsAccess: readonly Role[] = Object.freeze(['manager', 'auditor'])

/** Who sees the sites of a group side by side. */
export const comparesSites: readonly Role[] = Object.freeze(['manager', 'auditor', 'infectionControl'])

/** Whose task it is to write down who a patient is, and to see, search or erase it. */
export const namesCases: readonly Role[] = Object.freeze(['theatre', 'infectionControl', 'surgeonInCharge'])
export const identifiesPatients: readonly Role[] = Object.freeze(['infectionControl', 'surgeonInCharge'])

/** The roles that may give the second signature, where one is asked for. */
export const secondRoles: readonly Role[] = Object.freeze(['surgeonInCharge', 'infectionControl', 'manager'])

/** Whether a person of these roles may record the kind; a withdrawal asks for the right to what it withdraws. */
export function mayRecord(roles: readonly Role[], kind: KindName, withdrawn?: KindName): boolean {
  const asked = kind === 'entry-withdrawn' && withdrawn !== undefined ? withdrawn : kind
  return rightsOfKinds[asked].some((role) => roles.includes(role))
}
