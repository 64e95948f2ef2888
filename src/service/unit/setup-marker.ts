import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { Instant } from '#road/instant.ts'
import type { Place } from '#journal/place.ts'

/**
 * Remembers that the demonstration unit is being written, and up to which moment, so that a set-up that was cut short
 * goes on with the same entries at the next start.
 */
export interface SetupMarker {
  /** Null when nothing is under way. */
  readonly read: () => Instant | null
  readonly write: (until: Instant) => void
  readonly clear: () => void
}

/** A small file beside the record. On a server there is no such place: there a set-up that was cut short stays so. */
export function setupMarker(at: Place): SetupMarker {
  if (at.kind === 'postgres') return { read: () => null, write: () => {}, clear: () => {} }
  const file = `${at.file}.demonstration`
  return {
    read() {
      if (!existsSync(file)) return null
      const until = Instant.safeParse(readFileSync(file, 'utf8').trim())
      return until.success ? until.data : null
    },
    write: (until) => writeFileSync(file, `${until}\n`),
    clear: () => rmSync(file, { force: true }),
  }
}
