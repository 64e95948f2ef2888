import type { Clock } from '#road/clocks/clock.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'

/** A moment that was worked out between listed figures, said as the advice that it is. */
export function ClockAdvice({ clock }: { readonly clock: Clock }) {
  const times = useTimes()
  if (clock.advice === undefined) return null
  return (
    <small className="soft" style={{ display: 'block' }}>
      {words.baths.clock.advice(String(Number(clock.advice.hours.toFixed(1))), times.clock(clock.advice.at))}
    </small>
  )
}
