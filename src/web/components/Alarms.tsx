import { useEffect } from 'react'
import { Link } from 'react-router'
import { acknowledgeAlarm, alarmStore } from '../session/alarms.ts'
import { sound } from '../session/sound.ts'
import { useStore } from '../session/use-store.ts'
import { pathOf } from '../paths.ts'
import { words } from '../words/words.ts'

/** Sounds and stands on every open screen until somebody at that screen has taken note. */
export function Alarms() {
  const alarms = useStore(alarmStore)
  const sounding = alarms.length > 0
  useEffect(() => (sounding ? sound() : undefined), [sounding])
  if (!sounding) return null
  return (
    <section className="alarms" aria-label={words.alarm.label}>
      {alarms.map((alarm) => {
        const about = alarm.subjects.find((id) => id.startsWith('recall:')) ?? alarm.subjects[0]
        return (
          <div key={alarm.seq} role="alert">
            <strong>{words.alarm.word}</strong>
            <span style={{ flex: '1 1 16rem' }}>{alarm.says}</span>
            {about !== undefined && (
              <Link className="button" to={pathOf(about)}>
                {words.alarm.look}
              </Link>
            )}
            <button type="button" onClick={() => acknowledgeAlarm(alarm.seq)}>
              {words.alarm.acknowledge}
            </button>
          </div>
        )
      })}
    </section>
  )
}
