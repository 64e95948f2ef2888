import type { GasLogMap } from '#workings/gas/gas-map.ts'
import type { SteamLogMap } from '#workings/steam/log-map.ts'

/** A map that was kept for a machine, when it fits the columns of this log. */
export function keptMap(kept: unknown, header: readonly string[]): SteamLogMap | null {
  if (typeof kept !== 'object' || kept === null || !('time' in kept) || !('reference' in kept)) return null
  // It was checked against its schema when it was kept.
  const data = kept as SteamLogMap
  const columns = [data.time.column, data.reference.column, ...(data.loads ?? []).map((each) => each.column)]
  return columns.every((column) => header.includes(column)) ? data : null
}

/** The same for a gas or dry heat log. */
export function keptGasMap(kept: unknown, header: readonly string[]): GasLogMap | null {
  if (typeof kept !== 'object' || kept === null || !('time' in kept) || !('temperatures' in kept)) return null
  // It was checked against its schema when it was kept.
  const data = kept as GasLogMap
  const { time, temperatures, humidity, concentration, pressure, stage } = data
  const columns = [time, ...temperatures, humidity, concentration, pressure, stage].flatMap(
    (each) => each?.column ?? [],
  )
  return columns.every((column) => header.includes(column)) ? data : null
}
