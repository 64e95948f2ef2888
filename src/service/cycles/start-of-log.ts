import { type Instant, instant } from '#road/instant.ts'
import type { SteamLogMap } from '#workings/steam/log-map.ts'
import { readLogText } from '#workings/steam/log-text.ts'
import { isUnusable } from '#workings/steam/unusable.ts'

const isoWithZone = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?\s?(?:Z|[+-]\d{2}:?\d{2})$/

/**
 * The moment of a log's second zero, when its first reading names date, time and zone. Without a zone a moment can
 * only be guessed, so the answer is null and a person has to say it.
 */
export function startOfLog(text: string, map: SteamLogMap | undefined): Instant | null {
  const table = readLogText(text, map?.time.column)
  if (isUnusable(table)) return null
  const wanted = map?.time.column.trim().toLowerCase()
  const column = wanted === undefined ? -1 : table.header.findIndex((name) => name.toLowerCase() === wanted)
  const cells = column < 0 ? (table.rows[0] ?? []) : [table.rows[0]?.[column] ?? '']
  const stamp = cells.map((cell) => cell.trim()).find((cell) => isoWithZone.test(cell))
  const time = stamp === undefined ? Number.NaN : Date.parse(stamp.replace(' ', 'T').replace(',', '.'))
  return Number.isNaN(time) ? null : instant(time)
}
