import { defineRule } from '../../rule.ts'
import { implantPractice } from '../sources.ts'

/** An implant is placed on or before the day that its code says. */
export const implantInDate = defineRule({
  id: 'implant-in-date',
  says: 'An implant is placed no later than the day to which its code says that it may be used.',
  on: ['case-recorded'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const placedOn = facts.dayOf(body.startedAt)
    return (body.implant?.codes ?? []).flatMap(({ di, lot, serial, expiresOn }) => {
      if (expiresOn === undefined || placedOn <= expiresOn) return []
      const which =
        lot !== undefined ? `lot ${lot}` : serial !== undefined ? `serial number ${serial}` : `product ${di}`
      return [
        {
          weight: 'stop' as const,
          says: `The implant of ${which} had expired when it was placed. Tell the surgeon, note it for the patient, and look for others of it.`,
          measured: placedOn,
          limit: expiresOn,
          source: implantPractice,
        },
      ]
    })
  },
})
