import { lotIsBad } from '../consumables/lot-fold.ts'
import type { Instant } from '../instant.ts'
import { type Policy, policyAt } from '../policy.ts'
import type { Found } from '../rule.ts'
import type { SubjectId } from '../subject.ts'
import type { BathKnown } from './bath-fold.ts'
import { bathSpent } from './bath-spent.ts'
import { claimOffered, isStripPass, strongEnough, warmEnough, youngEnough } from './bath-use.ts'
import { eventsOfBath } from './events-of-bath.ts'
import { usesInDoubt } from './in-doubt.ts'
import { bathProduct } from './products.ts'
import { bathProposal, labelDecides } from './sources.ts'
import { type BathGround, useAtDecision } from './use-from-facts.ts'

/**
 * Why its bath does not speak for an immersion, by what is known now and by the limits that were in force then: the bath
 * was spent, too weak, too old, too cold or not known, or a strip failed since the last good one.
 */
export function immersionDoubts(facts: BathGround, id: SubjectId<'immersion'>): readonly Found[] {
  const immersion = facts.known(id)
  const started = immersion?.started ?? null
  if (immersion === undefined || started === null) {
    return [{ weight: 'notEvaluable', says: 'It is not recorded what it was immersed in.', source: labelDecides }]
  }
  const then = { ...facts, policy: policyThen(facts, started.at) }
  const bath = immersion.bath === null ? undefined : facts.known(immersion.bath)
  const use = useAtDecision(then, { immersion: id }, immersion.ended?.at ?? started.at)
  const ofUse =
    use === undefined
      ? []
      : [claimOffered, strongEnough, youngEnough, warmEnough].flatMap((check) => check(use, then.policy))
  return [...bathSpent(then, bath, id, started.at), ...ofUse, ...unspokenFor(then, bath, id)]
}

/** Says so when a strip of this bath failed, or came from a bad bottle, and no good strip speaks for this immersion. */
export function unspokenFor(
  facts: BathGround,
  bath: BathKnown | undefined,
  id: SubjectId<'immersion'>,
): readonly Found[] {
  if (bath === undefined || !hasFailed(facts, bath)) return []
  const events = eventsOfBath(bath, facts.policy, (lot) => facts.known(lot))
  if (!usesInDoubt(events).includes(id)) return []
  const says = 'A strip of this bath failed or came from a bad bottle, and no good strip speaks for this immersion.'
  return [{ weight: 'stop', says, source: bathProposal }]
}

function hasFailed({ policy, known }: BathGround, bath: BathKnown): boolean {
  const product = bath.product === null ? undefined : bathProduct(bath.product)
  return bath.strips.some(({ lot, result }) => {
    const bottle = known(lot)
    if (bottle !== undefined && lotIsBad(bottle)) return true
    return product === undefined ? result === 'fail' : isStripPass(result, product, policy) === false
  })
}

/** The policy that was in force when an immersion began. */
export function policyThen(facts: BathGround, at: Instant): Policy {
  const known = facts.known('policy:unit')
  return known === undefined ? facts.policy : policyAt(known, at)
}
