import type { ToldClock } from '#road/clocks/clocks-from.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'

/** What is left of a clock, large enough to read across a room. */
export function Countdown({ clock }: { readonly clock: ToldClock }) {
  const times = useTimes()
  const seconds = Math.ceil(clock.left / 1000)
  const hours = Math.floor(seconds / 3600)
  const two = (value: number) => String(value).padStart(2, '0')
  const minutes = two(Math.floor((seconds % 3600) / 60))
  const text = `${hours > 0 ? `${hours}:` : ''}${minutes}:${two(seconds % 60)}`
  return (
    <p role="timer" aria-label={words.baths.clock.left}>
      <span style={{ fontSize: '2.5rem', fontVariantNumeric: 'tabular-nums', lineHeight: 1.1 }}>
        {clock.ended ? words.baths.clock.over : text}
      </span>
      <br />
      <span className="soft">{words.baths.clock.endsAt(times.clock(clock.endsAt))}</span>
    </p>
  )
}
