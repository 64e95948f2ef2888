import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { recallProposal } from '../../sterilising/sources.ts'

/** A pack that is accounted for belongs to the recall. */
export const accountedInExtent = defineRule({
  id: 'accounted-in-extent',
  says: 'A pack that is accounted for in a recall lies in its extent.',
  on: ['recall-accounted'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const extent = facts.extentOf(body.recall)
    if (extent === undefined || extent.packs.some((pack) => pack.round === body.round)) return []
    return [
      {
        weight: 'caution',
        says: `${packName(facts, body.round)} is not one of the packs of this recall. Check the label.`,
        source: recallProposal,
      },
    ]
  },
})
