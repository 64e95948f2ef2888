import { gasMapByNames } from '#workings/gas/gas-map.ts'
import { mapByNames } from '#workings/steam/auto-map.ts'
import { readLogText } from '#workings/steam/log-text.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { washerMapByNames } from '#workings/washer/washer-map.ts'
import { describeProblem } from '#units/problem.ts'
import type { AnyLogMap, LogKind } from './log-map-kinds.ts'

/** The head of a log, to be shown beside the map of its columns. */
export interface LogPreview {
  readonly header: readonly string[]
  readonly units: readonly string[] | null
  readonly rows: readonly (readonly string[])[]
  /** What the names of the columns say, taken as the log of each kind of machine; null where they do not say enough. */
  readonly byNames: Readonly<Record<LogKind, AnyLogMap | null>>
}

const rowsShown = 3

export function previewLog(text: string): LogPreview {
  const table = readLogText(text)
  if (isUnusable(table)) throw new RangeError(describeProblem(table.problem))
  const mapOf = (found: { readonly map: AnyLogMap } | object) => ('map' in found ? found.map : null)
  return {
    header: table.header,
    units: table.units,
    rows: table.rows.slice(0, rowsShown),
    byNames: {
      steam: mapOf(mapByNames(table)),
      gas: mapOf(gasMapByNames(table)),
      washer: mapOf(washerMapByNames(table)),
    },
  }
}
