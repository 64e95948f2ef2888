import type { Instant } from '#road/instant.ts'
import type { Proof } from '#road/people/signature.ts'
import type { Policy } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Credentials } from '#journal/credentials/credentials.ts'
import { lastMoment } from './session-times.ts'

type Person = SubjectId<'person'>

/** A session that goes on, as its person is shown it. */
export interface OpenSession {
  /** Names it, and opens nothing: the beginning of the hash that is kept of it. */
  readonly id: string
  readonly token: string
  readonly how: Proof
  /** The tablet that it is at; null for a browser that was not enrolled. */
  readonly tablet: string | null
  readonly startedAt: Instant
  readonly seenAt: Instant
  readonly endsAt: Instant
}

/** Where a person is signed in, seen and ended. */
export interface OwnSessions {
  /** The sessions of a person that go on. */
  sessionsOf(person: Person): Promise<readonly OpenSession[]>
  /** Ends those of a person's sessions that are chosen, and gives how many; a line of the log says so. */
  endSessions(person: Person, by: Person | null, chosen: (session: OpenSession) => boolean): Promise<number>
}

interface Parts {
  readonly credentials: Credentials
  readonly policy: () => Promise<Policy>
  readonly now: () => Instant
  readonly note: (person: Person | null, what: string, about?: string) => Promise<void>
}

export function ownSessions({ credentials, policy, now, note }: Parts): OwnSessions {
  const sessionsOf = async (person: Person): Promise<readonly OpenSession[]> => {
    const [sessions, devices, inForce] = await Promise.all([
      credentials.sessionsOf(person),
      credentials.devices(),
      policy(),
    ])
    return sessions
      .map((session) => ({
        id: session.token.slice(0, 16),
        token: session.token,
        how: session.how,
        tablet: devices.find(({ id }) => id === session.device)?.name ?? null,
        startedAt: session.startedAt,
        seenAt: session.seenAt,
        endsAt: lastMoment(session, inForce),
      }))
      .filter(({ endsAt }) => endsAt >= now())
  }
  return {
    sessionsOf,
    async endSessions(person, by, chosen) {
      const ending = (await sessionsOf(person)).filter(chosen)
      for (const { token } of ending) {
        // oxlint-disable-next-line no-await-in-loop: a handful, in the order in which they are listed
        await credentials.endSession(token, now())
      }
      if (ending.length > 0) await note(by, `ended ${ending.length} sessions`, person)
      return ending.length
    },
  }
}
