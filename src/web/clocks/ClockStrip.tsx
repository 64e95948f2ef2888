import { Link } from 'react-router'
import { pathOf } from '../paths.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { ClockAdvice } from './ClockAdvice.tsx'
import { timeLeft } from './time-left.ts'
import { useClocks } from './use-clocks.ts'

const shown = 4

/** The contact and aeration clocks that run, on every page: the ones that end first. */
export function ClockStrip() {
  const w = words.baths.clock
  const times = useTimes()
  const running = useClocks().filter(({ kind, ended }) => !ended && (kind === 'contact' || kind === 'aeration'))
  if (running.length === 0) return null
  return (
    <ul className="clocks" aria-label={w.running}>
      {running.slice(0, shown).map((clock) => (
        <li key={clock.key}>
          <Link to={pathOf(clock.at)}>
            {w.stillRunning[clock.kind]} {clock.label}
          </Link>
          <span className="left">{timeLeft(clock)}</span>
          <span className="soft">{w.endsAt(times.clock(clock.endsAt))}</span>
          <ClockAdvice clock={clock} />
        </li>
      ))}
      {running.length > shown && <li>{w.further(running.length - shown)}</li>}
    </ul>
  )
}
