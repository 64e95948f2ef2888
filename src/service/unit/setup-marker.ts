import type { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import type { Notes } from '#journal/journal.ts'

/**
 * Remembers that the demonstration unit is being written, and up to which moment, so that a set-up that was cut short
 * goes on with the same entries at the next start.
 */
export interface SetupMarker {
  /** Null when nothing is under way. */
  readonly read: () => Promise<Instant | null>
  readonly write: (until: Instant) => Promise<void>
  readonly clear: () => Promise<void>
}

/** A note of the store itself: the next service may run on another computer, and a server holds several units. */
export function setupMarker(notes: Notes, site: SiteId): SetupMarker {
  const name = `demonstration of ${site}`
  return {
    async read() {
      const until = Instant.safeParse(await notes.read(name))
      return until.success ? until.data : null
    },
    write: (until) => notes.write(name, until),
    clear: () => notes.clear(name),
  }
}
