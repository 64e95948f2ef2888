import type { Instant } from '../instant.ts'
import type { Clock, ClockFacts, ClockSource } from './clock.ts'
import { aerationClocks } from './aeration-clocks.ts'
import { contactClocks } from './contact-clocks.ts'
import { redoseClocks } from './redose-clocks.ts'
import { soakClocks } from './soak-clocks.ts'

/** Everything that runs out. A further kind of clock is one more line here. */
const clockSources: readonly ClockSource[] = Object.freeze([contactClocks, aerationClocks, soakClocks, redoseClocks])

export interface ToldClock extends Clock {
  /** Milliseconds until it ends; zero once it has. */
  readonly left: number
  readonly ended: boolean
}

/** All clocks as they stand at this moment, the one that ends first before the others. */
export function clocksFrom(facts: ClockFacts, now: Instant): readonly ToldClock[] {
  return clockSources
    .flatMap((source) => source(facts))
    .filter(({ replacedAt }) => replacedAt === undefined || now < replacedAt)
    .map((clock) => {
      const left = Math.max(0, Date.parse(clock.endsAt) - Date.parse(now))
      return { ...clock, left, ended: left === 0 }
    })
    .sort((a, b) => (a.endsAt === b.endsAt ? (a.key < b.key ? -1 : 1) : a.endsAt < b.endsAt ? -1 : 1))
}
