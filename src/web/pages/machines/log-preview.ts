import { type GasLogMap, gasMapByNames } from '#workings/gas/gas-map.ts'
import { mapByNames } from '#workings/steam/auto-map.ts'
import type { SteamLogMap } from '#workings/steam/log-map.ts'
import { readLogText } from '#workings/steam/log-text.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { describeProblem } from '#units/problem.ts'

/** The head of a log, to be shown beside the map of its columns. */
export interface LogPreview {
  readonly header: readonly string[]
  readonly units: readonly string[] | null
  readonly rows: readonly (readonly string[])[]
  /** What the names of the columns say, when they say enough. */
  readonly map: SteamLogMap | null
  /** The same, taken as the log of a gas or dry heat steriliser. */
  readonly gasMap: GasLogMap | null
}

const rowsShown = 3

export function previewLog(text: string): LogPreview {
  const table = readLogText(text)
  if (isUnusable(table)) throw new RangeError(describeProblem(table.problem))
  const mapped = mapByNames(table)
  const asGas = gasMapByNames(table)
  return {
    header: table.header,
    units: table.units,
    rows: table.rows.slice(0, rowsShown),
    map: 'map' in mapped ? mapped.map : null,
    gasMap: 'map' in asGas ? asGas.map : null,
  }
}
