import { useEffect } from 'react'
import { Link } from 'react-router'
import { pathOf } from '../paths.ts'
import { sound } from '../session/sound.ts'
import { makeStore } from '../session/store.ts'
import { useStore } from '../session/use-store.ts'
import { words } from '../words/words.ts'
import { useClocks } from './use-clocks.ts'

/** The clocks that somebody at this screen has taken note of. */
const notedStore = makeStore<readonly string[]>([])

/** Sounds and stands on every open screen when a clock ends, until it is noted here or dealt with anywhere. */
export function ClockAlarms() {
  const noted = useStore(notedStore)
  const due = useClocks().filter((clock) => clock.ended && !noted.includes(clock.key))
  const sounding = due.length > 0
  useEffect(() => (sounding ? sound() : undefined), [sounding])
  if (!sounding) return null
  return (
    <section className="alarms" aria-label={words.baths.clock.label}>
      {due.map((clock) => (
        <div key={clock.key} role="alert">
          <strong>{words.baths.clock.ended[clock.kind]}</strong>
          <span style={{ flex: '1 1 16rem' }}>{clock.label}</span>
          <Link className="button" to={pathOf(clock.at)}>
            {words.alarm.look}
          </Link>
          <button type="button" onClick={() => notedStore.set([...notedStore.get(), clock.key])}>
            {words.alarm.acknowledge}
          </button>
        </div>
      ))}
    </section>
  )
}
