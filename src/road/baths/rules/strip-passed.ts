import type { EntryId } from '../../entry.ts'
import { defineRule } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import type { BathKnown } from '../bath-fold.ts'
import { isStripPass } from '../bath-use.ts'
import { eventsOfBath } from '../events-of-bath.ts'
import { usesInDoubt } from '../in-doubt.ts'
import { bathProduct } from '../products.ts'
import { bathProposal, failedStripPractice, labelDecides } from '../sources.ts'

/** A failed strip ends the bath and puts in doubt what no passed strip speaks for. */
export const stripPassed = defineRule({
  id: 'strip-passed',
  says: 'A bath whose strip fails is discarded whole, and what was immersed since the last pass is looked for.',
  on: ['strip-read'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt, corrects }) {
    const bath = facts.known(body.bath)
    const product = bath === undefined || bath.product === null ? undefined : bathProduct(bath.product)
    if (bath === undefined || product === undefined) return []
    const passed = isStripPass(body.result, product, facts.policy)
    if (passed === true) return []
    if (passed === null) {
      const says = 'Only the label knows the smallest strength of this product. Read the pad as passed or failed.'
      return [{ weight: 'notEvaluable', says, source: labelDecides }]
    }
    const corrected = corrects === undefined ? bath : withoutStrip(bath, corrects)
    const events = eventsOfBath(corrected, facts.policy, (lot) => facts.known(lot))
    const inDoubt = usesInDoubt([...events, { kind: 'strip', at: happenedAt, passed: false }])
    const discard = 'The strip failed. Discard the whole bath: do not top it up and do not use it for longer.'
    if (inDoubt.length === 0) return [{ weight: 'stop', says: discard, source: failedStripPractice }]
    const named = inDoubt.map((id) => subjectKey(id)).join(', ')
    return [
      { weight: 'stop', says: discard, source: failedStripPractice },
      {
        weight: 'stop',
        says: `No passed strip speaks for ${named}. Open the recall of this bath now.`,
        measured: `${inDoubt.length} immersions`,
        source: bathProposal,
      },
    ]
  },
})

/** The bath as it is known without the reading that is corrected. */
function withoutStrip(bath: BathKnown, corrected: EntryId): BathKnown {
  return {
    ...bath,
    strips: bath.strips.filter((strip) => strip.entry !== corrected),
    uses: bath.uses.map((use) => (use.strip?.entry === corrected ? { ...use, strip: null } : use)),
  }
}
