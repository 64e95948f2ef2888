import { defineRule } from '../../rule.ts'
import { recallProposal } from '../../sterilising/sources.ts'
import { subjectKey } from '../../subject.ts'
import { outcomeMisfit } from '../outcome-fits.ts'

/** A recall is closed only when each outcome fits its pack as it is known now. */
export const closedOutcomesFit = defineRule({
  id: 'closed-outcomes-fit',
  says: 'A recall is closed only when each outcome fits its pack; a pack that was used needs its patient to be followed.',
  on: ['recall-closed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const packs = facts.extentOf(body.recall)?.packs.filter((pack) => pack.duty !== 'cleared') ?? []
    return packs.flatMap((pack) => {
      // A pack that was pulled from the shelf may rightly be on a new round by now.
      const misfit =
        pack.outcome === null || pack.outcome === 'stoppedBeforeUse' ? undefined : outcomeMisfit(pack, pack.outcome)
      if (misfit === undefined) return []
      return [
        {
          weight: 'stop' as const,
          says: `${subjectKey(pack.round)} ${misfit}. Correct its outcome before closing.`,
          measured: pack.outcome ?? '',
          source: recallProposal,
        },
      ]
    })
  },
})
