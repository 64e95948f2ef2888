import type { ToldClock } from '#road/clocks/clocks-from.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { ClockAdvice } from './ClockAdvice.tsx'
import { timeLeft } from './time-left.ts'

/** What is left of a clock, large enough to read across a room. */
export function Countdown({ clock }: { readonly clock: ToldClock }) {
  const times = useTimes()
  return (
    <p role="timer" aria-label={words.baths.clock.left}>
      <span style={{ fontSize: '2.5rem', fontVariantNumeric: 'tabular-nums', lineHeight: 1.1 }}>
        {clock.ended ? words.baths.clock.over : timeLeft(clock)}
      </span>
      <br />
      <span className="soft">{words.baths.clock.endsAt(times.clock(clock.endsAt))}</span>
      <ClockAdvice clock={clock} />
    </p>
  )
}
