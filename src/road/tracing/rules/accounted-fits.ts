import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { recallProposal } from '../../sterilising/sources.ts'
import { outcomeMisfit } from '../outcome-fits.ts'

/** The outcome fits where the pack is. */
export const accountedFits = defineRule({
  id: 'accounted-fits',
  says: 'The outcome of a recalled pack fits where the pack is: one that was used on a patient cannot be pulled from a shelf.',
  on: ['recall-accounted'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const pack = facts.extentOf(body.recall)?.packs.find((each) => each.round === body.round)
    const misfit = pack === undefined ? undefined : outcomeMisfit(pack, body.outcome)
    if (misfit === undefined) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} ${misfit}. Correct the outcome.`,
        measured: body.outcome,
        source: recallProposal,
      },
    ]
  },
})
