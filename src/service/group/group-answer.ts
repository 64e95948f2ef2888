import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Rate } from '#road/wounds/surveillance/rates.ts'

/** GET /api/group: one site of a group. */
export interface GroupSite {
  readonly site: SiteId
  /** null while no unit is open there. */
  readonly name: string | null
  readonly entries: number
  readonly lastRecordedAt: Instant | null
  readonly openRecalls: number
  /** Loads with a biological indicator read, and those of them where one grew. */
  readonly indicators: { readonly read: number; readonly grown: number }
  readonly rate: Rate
  /** Operations in which every measure that guards the wound has an answer. */
  readonly preventionComplete: number
}

export interface GroupAnswer {
  readonly days: number
  readonly sites: readonly GroupSite[]
}
