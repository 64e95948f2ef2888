import { minutesBetween } from '../../instant.ts'
import { packName, spoken } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { keepMoist, soakAlarmMinutes } from '../limits.ts'

/** A used set is soaked before it is washed. */
export const washedAfterSoak = defineRule({
  id: 'washed-after-soak',
  says: 'A used set is soaked before it is washed; one that waited dry for long is an alarm.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const alarm = facts.policy.limit(soakAlarmMinutes)
    return body.rounds.flatMap((id) => {
      const round = facts.known(id)
      if (round === undefined || round.began?.because !== 'use' || round.soak !== null) return []
      const waited = minutesBetween(round.began.at, happenedAt)
      const late = waited > alarm.value
      return [
        {
          weight: late ? ('stop' as const) : ('caution' as const),
          says: `${packName(facts, id)} was washed without a soak. Look at joints and lumens closely; wash again if soil is seen.`,
          measured: `${spoken(waited)} from last use to wash`,
          limit: spoken(alarm.value),
          source: late ? alarm.source : keepMoist,
        },
      ]
    })
  },
})
