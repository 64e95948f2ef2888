import { defineRule } from '../../rule.ts'
import { packName } from '../../naming.ts'
import { devicesOf } from '../../set-content.ts'
import { st79Cleaning } from '../limits.ts'

/** What comes apart is washed in parts. */
export const washedTakenApart = defineRule({
  id: 'washed-taken-apart',
  says: 'A device of several parts is taken apart before it is washed.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.how.takenApart) return []
    return body.rounds.flatMap((id) => {
      const inParts = devicesOf(facts, id).filter((device) => device.parts > 1)
      if (inParts.length === 0) return []
      return [
        {
          weight: 'caution' as const,
          says: `${packName(facts, id)} was washed in one piece. Take apart ${inParts.map((device) => device.name).join(', ')} and wash again.`,
          source: st79Cleaning,
        },
      ]
    })
  },
})
