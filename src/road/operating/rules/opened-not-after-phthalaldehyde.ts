import { isFromBath } from '../../baths/from-bath.ts'
import { noUrologyWithBladderCancer } from '../../baths/patient-limits.ts'
import { bathProduct } from '../../baths/products.ts'
import { defineRule } from '../../rule.ts'
import { devicesOf } from '../../set-content.ts'

/** Ortho-phthalaldehyde and the bladder: held against the patient whom the set is opened for. */
export const openedNotAfterPhthalaldehyde = defineRule({
  id: 'opened-not-after-phthalaldehyde',
  says: 'A urological set that was treated with ortho-phthalaldehyde is not used on a patient who had bladder cancer.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    if (round === undefined || round.immersion === null || !isFromBath(round)) return []
    const bath = facts.known(round.immersion.id)?.bath ?? null
    const product = bath === null ? null : (facts.known(bath)?.product ?? null)
    const known = product === null ? undefined : bathProduct(product)
    if (known === undefined) return []
    const domains = devicesOf(facts, body.round).map((device) => device.domain)
    const urological = domains.includes('urology') ? true : domains.includes(undefined) ? null : false
    const bladderCancer = facts.known(body.case)?.patientFacts?.bladderCancer
    // A set of which nobody said that it is urological, for a patient of whom nobody said anything: as before a bath.
    if (urological === null && bladderCancer !== 'yes') return []
    return noUrologyWithBladderCancer(known, { urological, bladderCancer: bladderCancer ?? 'notKnown' })
  },
})
