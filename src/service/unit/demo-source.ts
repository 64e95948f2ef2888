import type { SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'

/** One step of the demonstration unit: a file to keep, or an entry to record. */
export type DemoStep =
  | { readonly kind: 'attachment'; readonly text: string; readonly mediaType: string }
  | { readonly kind: 'entry'; readonly entry: SentEntry }

/**
 * Writes the record of an invented hospital, the same for the same options: its ids repeat, so that a set-up that was
 * cut short goes on where it ended.
 */
export interface DemoSource {
  /** About how many steps there are, for the bar on the screen. */
  readonly total: number
  readonly steps: (options: {
    readonly site: SiteId
    readonly now: Instant
  }) => Iterable<DemoStep> | AsyncIterable<DemoStep>
}
