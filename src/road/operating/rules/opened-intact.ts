import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { packIntegrity } from '../../storing/sources.ts'

/** Only a dry and whole pack is opened for a patient. */
export const openedIntact = defineRule({
  id: 'opened-intact',
  says: 'Only a pack that is dry and whole is opened for a patient, whatever its date.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const before = facts.known(body.round)?.damage?.condition
    const condition = body.condition === 'intact' ? before : body.condition
    if (condition === undefined) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} is not whole and dry, so it is not sterile. Do not use it; take another.`,
        measured: condition,
        source: packIntegrity,
      },
    ]
  },
})
