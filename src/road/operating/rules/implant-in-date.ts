import type { Facts } from '../../facts.ts'
import type { Finding } from '../../finding.ts'
import { dayIn } from '../../local-day.ts'
import { defineRule } from '../../rule.ts'
import type { ImplantCode } from '../implant.ts'
import { implantPractice } from '../sources.ts'

/** An implant is placed on or before the day that its code says. Where nobody knows that day it is not judged, which is no pass. */
export const implantInDate = defineRule({
  id: 'implant-in-date',
  says: 'An implant is placed no later than the day to which its code says that it may be used.',
  on: ['case-recorded'],
  exceptionAllowed: false,
  check(facts, { body: { implant, startedAt } }) {
    if (implant === null) return []
    const placedOn = facts.dayOf(startedAt)
    if (implant.codes === undefined)
      return [notEvaluable('implant', 'its code was not scanned', 'Scan the code on its pack')]
    return implant.codes.flatMap((code): readonly Omit<Finding, 'rule'>[] => {
      const { di, lot, serial } = code
      const which =
        lot !== undefined ? `lot ${lot}` : serial !== undefined ? `serial number ${serial}` : `product ${di}`
      const lastDay = lastDayOf(facts, code)
      if (lastDay === undefined)
        return [notEvaluable(`implant of ${which}`, 'its code says no expiry', 'Read the day on its pack')]
      if (placedOn <= lastDay) return []
      return [
        {
          weight: 'stop',
          says: `The implant of ${which} had expired when it was placed. Tell the surgeon, note it for the patient, and look for others of it.`,
          measured: placedOn,
          limit: lastDay,
          source: implantPractice,
        },
      ]
    })
  },
})

function notEvaluable(what: string, why: string, todo: string) {
  return {
    weight: 'notEvaluable' as const,
    says: `Not evaluable whether the ${what} was in date: wanted is its expiry, and ${why}. ${todo}, and put the record of the case right; if it had expired, tell the surgeon.`,
    measured: 'no expiry',
    limit: 'the day to which it may be used',
    source: implantPractice,
  }
}

/** What the code says, or the lot on record that it is of; the earlier day where both say one. */
function lastDayOf(facts: Facts, { di, lot, expiresOn, fromLot }: ImplantCode): string | undefined {
  const onRecord = fromLot === undefined ? undefined : facts.known(fromLot)
  // A lot of another product or number says nothing about this one.
  const same = onRecord !== undefined && onRecord.gtin === di && onRecord.number === lot
  const until = same ? onRecord.expiresAt : null
  // The end of its last day is kept as the unit's or, from the code at another case, as that of UTC: the earlier day is meant.
  const days = until === null ? [] : [facts.dayOf(until), dayIn('UTC', until)]
  return [expiresOn, ...days].filter((each) => each !== undefined).toSorted()[0]
}
