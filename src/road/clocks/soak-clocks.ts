import { soakAlarmMinutes, soakCautionMinutes } from '../cleaning/limits.ts'
import { type Instant, instant, millis } from '../instant.ts'
import type { Clock, ClockFacts } from './clock.ts'

/**
 * The wait of each used set for its soak: until the caution, and from there until the alarm. Both count from the last
 * use, so they stand still for nobody.
 */
export function soakClocks({ rounds = [], setName = () => '', policy }: ClockFacts): readonly Clock[] {
  const after = (from: Instant, minutes: number) => instant(millis(from) + minutes * 60_000)
  return rounds.flatMap((round): readonly Clock[] => {
    if (round.began === null || round.began.because !== 'use' || round.soak !== null || round.next !== null) return []
    if (round.wash !== null) return []
    const startedAt = round.began.at
    const shared = { subject: round.id, at: round.id, label: setName(round.set), startedAt }
    const soon = after(startedAt, policy.limit(soakCautionMinutes).value)
    const late = after(startedAt, policy.limit(soakAlarmMinutes).value)
    return [
      { ...shared, key: `soak ${round.id} ${soon}`, kind: 'soak', endsAt: soon, replacedAt: late },
      { ...shared, key: `late soak ${round.id} ${late}`, kind: 'lateSoak', endsAt: late },
    ]
  })
}
