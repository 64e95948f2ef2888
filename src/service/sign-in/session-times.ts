import { type Instant, instant, millis } from '#road/instant.ts'
import { idleMinutes, sessionHours } from '#road/people/limits.ts'
import type { Policy } from '#road/policy.ts'
import type { Session } from '#journal/credentials/credentials.ts'

/** When the session ends by itself at the latest. */
export function lastMoment(session: Session, policy: Policy): Instant {
  const idle = millis(session.seenAt) + policy.limit(idleMinutes).value * 60_000
  return instant(Math.min(idle, millis(sessionEnd(session, policy))))
}

/** When the session ends, whatever is done. */
export function sessionEnd({ startedAt }: Session, policy: Policy): Instant {
  return instant(millis(startedAt) + policy.limit(sessionHours).value * 3_600_000)
}

/** When a session that lasts until then has begun at the earliest. */
export function earliestStart(at: Instant, policy: Policy): Instant {
  return instant(millis(at) - policy.limit(sessionHours).value * 3_600_000)
}
