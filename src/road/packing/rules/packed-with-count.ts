import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { setOf } from '../../set-content.ts'
import type { SubjectId } from '../../subject.ts'
import { countAgainstSheet } from '../count-against-sheet.ts'
import { setRecord } from '../limits.ts'

/** A pack holds what its count sheet names. */
export const packedWithCount = defineRule({
  id: 'packed-with-count',
  says: 'A pack is sealed only if its count sheet is complete; something missing needs a named exception.',
  on: ['pack-sealed'],
  exceptionAllowed: true,
  check(facts, { body }) {
    const set = setOf(facts, body.round)
    if (set === undefined) return []
    const counted = new Map<SubjectId<'device'>, number>()
    for (const line of body.counted) counted.set(line.device, (counted.get(line.device) ?? 0) + line.count)
    return countAgainstSheet(set.countSheet, counted).flatMap(({ line, here }) => {
      if (here === line.count) return []
      const device = facts.known(line.device)?.name ?? line.device
      const what = here < line.count ? 'is missing' : 'is more than the count sheet says'
      return [
        {
          weight: 'stop' as const,
          says: `${packName(facts, body.round)}: ${device} ${what}. Find it, or have someone allow the pack as it is and say why.`,
          measured: `${here}`,
          limit: `${line.count}`,
          source: setRecord,
        },
      ]
    })
  },
})
