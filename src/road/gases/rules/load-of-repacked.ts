import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { peroxideCancelled } from '../sources.ts'

/** What was in a cancelled cycle is packed again before it runs again. */
export const loadOfRepacked = defineRule({
  id: 'load-of-repacked',
  says: 'A pack that was in a cancelled cycle is packed again, with new wrap and indicator, before it runs again.',
  on: ['load-built'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    body.rounds.flatMap((id) => {
      const round = facts.known(id)
      const before = round?.load?.id
      const cancelled = before === undefined ? null : (facts.known(before)?.gas?.cancelled ?? null)
      const sealed = round?.sealed ?? null
      if (before === body.load || cancelled === null || sealed === null || sealed.at > cancelled.at) return []
      return [
        {
          weight: 'stop' as const,
          says: `${packName(facts, id)} was in a cancelled cycle and was not packed again. Dry it, pack it with a new wrap and indicator.`,
          measured: `sealed ${sealed.at}`,
          limit: `after ${cancelled.at}`,
          source: peroxideCancelled,
        },
      ]
    }),
})
