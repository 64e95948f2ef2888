import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { devicesOf } from '../../set-content.ts'
import { brushPractice } from '../limits.ts'

/** Each lumen is brushed and flushed. */
export const lumensBrushed = defineRule({
  id: 'lumens-brushed',
  says: 'A lumen is brushed and flushed when it is washed by hand.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const { how } = body
    if (how.kind !== 'manual') return []
    const missing = [
      ...(how.lumensBrushed === 'yes' ? [] : ['brushed']),
      ...(how.lumensFlushed === 'yes' ? [] : ['flushed']),
    ].join(' or ')
    if (missing === '') return []
    return body.rounds.flatMap((id) => {
      const hollow = devicesOf(facts, id).filter((device) => device.lumens.length > 0)
      if (hollow.length === 0) return []
      return [
        {
          weight: 'caution' as const,
          says: `${packName(facts, id)}: the lumen of ${hollow.map((device) => device.name).join(', ')} was not ${missing}. Do it now, before it dries.`,
          source: brushPractice,
        },
      ]
    })
  },
})
