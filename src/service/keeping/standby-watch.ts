import type { Journal } from '#journal/journal.ts'
import type { StandbyState } from '../api-types.ts'
import type { Say } from '../operation/log.ts'

export interface StandbyWatch {
  /** As it was last seen. */
  state(): StandbyState
  /** Looks now. */
  look(): Promise<void>
  close(): void
}

interface WatchOptions {
  readonly journal: Pick<Journal, 'standby'>
  /** Whether a standby is to have each entry before it is acknowledged. */
  readonly expected: boolean
  readonly log: Say
  readonly lookEveryMilliseconds?: number
}

/** Looks every minute whether a standby has what is acknowledged, and says when that changes. */
export function standbyWatch({ journal, expected, log, lookEveryMilliseconds = 60_000 }: WatchOptions): StandbyWatch {
  let seen: StandbyState = expected ? 'notSeenYet' : 'notExpected'

  const look = async (): Promise<void> => {
    if (!expected) return
    const { state, says } = await journal.standby()
    if (state === seen) return
    seen = state
    if (state === 'confirms') log(`standby: ${says}`)
    else log(`NO STANDBY: ${says}`, 'error')
  }
  // A database that does not answer says so elsewhere; the next look finds out.
  const quietly = (): void => void look().catch(() => {})
  const timer = expected ? setInterval(quietly, lookEveryMilliseconds).unref() : undefined
  quietly()

  return { state: () => seen, look, close: () => clearInterval(timer) }
}
