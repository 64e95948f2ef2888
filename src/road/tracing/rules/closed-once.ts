import { defineRule } from '../../rule.ts'
import { recallProposal } from '../../sterilising/sources.ts'

/** Only an open recall is closed. */
export const closedOnce = defineRule({
  id: 'closed-once',
  says: 'Only a recall that is open is closed.',
  on: ['recall-closed'],
  exceptionAllowed: false,
  check(facts, { body, corrects }) {
    const recall = facts.known(body.recall)
    if (recall === undefined || corrects !== undefined) return []
    if (recall.opened !== null && recall.closed === null) return []
    const why =
      recall.opened === null
        ? 'What opened this recall was withdrawn: there is nothing to close.'
        : 'This recall is closed already.'
    return [{ weight: 'stop', says: why, source: recallProposal }]
  },
})
