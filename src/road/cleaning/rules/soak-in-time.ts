import { minutesBetween } from '../../instant.ts'
import { packName, spoken } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { moistSoakAlarmMinutes } from '../water-limits.ts'
import { soakAlarmMinutes, soakCautionMinutes } from '../limits.ts'

/** Soiled instruments are soaked soon after their last use. */
export const soakInTime = defineRule({
  id: 'soak-in-time',
  says: 'The soak starts soon after the last use, before soil dries on.',
  on: ['soak-started'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const began = facts.known(body.round)?.began ?? null
    if (began === null || began.because !== 'use') return []
    const waited = minutesBetween(began.at, happenedAt)
    // What contradicts itself counts as dry until it is corrected.
    const moist = body.transport === 'moist' && body.keptIn !== 'nothing'
    const alarm = facts.policy.limit(moist ? moistSoakAlarmMinutes : soakAlarmMinutes)
    const caution = facts.policy.limit(soakCautionMinutes)
    if (waited <= caution.value) return []
    const late = waited > alarm.value
    const limit = late ? alarm : caution
    return [
      {
        weight: late ? 'stop' : 'caution',
        says: late
          ? `${packName(facts, body.round)} waited far too long for its soak. Soil has dried: soak again, brush by hand, and look twice.`
          : `${packName(facts, body.round)} waited long for its soak. Soak it longer and look at it closely after the wash.`,
        measured: spoken(waited),
        limit: spoken(limit.value),
        source: limit.source,
      },
    ]
  },
})
