import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { packIntegrity } from '../sources.ts'

/** A wet, torn or broken pack is not sterile. */
export const conditionLost = defineRule({
  id: 'condition-lost',
  says: 'A pack that is wet, torn, punctured, open, stained or dropped is not sterile any more.',
  on: ['pack-condition-noted'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.condition === 'intact') return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} is not sterile any more. Take it away and start a new round with it.`,
        measured: body.condition,
        source: packIntegrity,
      },
    ]
  },
})
