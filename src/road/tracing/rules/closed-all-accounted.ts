import { defineRule } from '../../rule.ts'
import { recallProposal } from '../../sterilising/sources.ts'
import { subjectKey } from '../../subject.ts'

/** A recall is closed only when each pack is accounted for. */
export const closedAllAccounted = defineRule({
  id: 'closed-all-accounted',
  says: 'A recall is closed only when every pack to be recalled or held is accounted for.',
  on: ['recall-closed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const packs = facts.extentOf(body.recall)?.packs.filter((pack) => pack.duty !== 'cleared') ?? []
    const open = packs.filter((pack) => pack.outcome === null)
    if (open.length === 0) return []
    const named = open.slice(0, 5).map((pack) => subjectKey(pack.round))
    const more = open.length > named.length ? ` and ${open.length - named.length} more` : ''
    return [
      {
        weight: 'stop',
        says: `Not every pack is accounted for: ${named.join(', ')}${more}. Find each and record what became of it.`,
        measured: `${packs.length - open.length} of ${packs.length}`,
        limit: 'all',
        source: recallProposal,
      },
    ]
  },
})
