import { aerationAdvice, aerationHours } from '../gases/aeration.ts'
import { instant, millis } from '../instant.ts'
import { subjectKey } from '../subject.ts'
import type { Clock, ClockFacts } from './clock.ts'

/** The aeration of each ethylene oxide load that has not ended. One set too cold for every listed pair has no end to wait for. */
export function aerationClocks({ loads = [], policy }: ClockFacts): readonly Clock[] {
  return loads.flatMap((load): readonly Clock[] => {
    const { aeration, aerated } = load.gas
    if (aeration === null || aerated !== null) return []
    const hours = aerationHours(aeration.setC, policy, aeration.makerHours)
    if (hours === null) return []
    const after = (wanted: number) => instant(millis(aeration.at) + wanted * 3_600_000)
    const endsAt = after(hours)
    const advised = aerationAdvice(aeration.setC, policy)
    return [
      {
        key: `aeration ${load.id} ${endsAt}`,
        kind: 'aeration',
        subject: load.id,
        at: load.id,
        label: `${subjectKey(load.id)}, ${aeration.setC} °C`,
        startedAt: aeration.at,
        endsAt,
        ...(advised === null ? {} : { advice: { hours: advised, at: after(advised) } }),
      },
    ]
  })
}
