import type { z } from 'zod'
import { GasLogMap } from '#workings/gas/gas-map.ts'
import { SteamLogMap } from '#workings/steam/log-map.ts'
import { WasherLogMap } from '#workings/washer/washer-map.ts'
import type { Bodies } from '#road/kinds.ts'

/** Whose logs: each kind of machine has its own columns. */
export type LogKind = 'steam' | 'gas' | 'washer'

/** The map of any log: what a kind does not have is not there. */
export interface AnyLogMap {
  readonly time: SteamLogMap['time']
  readonly reference?: SteamLogMap['reference'] | undefined
  readonly loads?: SteamLogMap['loads'] | undefined
  readonly above?: SteamLogMap['above'] | undefined
  readonly temperatures?: GasLogMap['temperatures'] | undefined
  readonly humidity?: GasLogMap['humidity'] | undefined
  readonly concentration?: GasLogMap['concentration'] | undefined
  readonly conductivity?: WasherLogMap['conductivity'] | undefined
  readonly stage?: GasLogMap['stage'] | undefined
  readonly pressure?: SteamLogMap['pressure'] | undefined
}

/** What of a map a log of one kind has, besides its time. */
export interface LogMapKind {
  readonly schema: z.ZodType<AnyLogMap>
  /** The sensor at the reference point, which steam has apart from those inside the load. */
  readonly hasReference: boolean
  readonly sensors: 'loads' | 'temperatures'
  readonly columns: readonly ('humidity' | 'concentration' | 'stage')[]
  readonly hasConductivity: boolean
  readonly hasPressure: boolean
}

export const logMapKinds: Readonly<Record<LogKind, LogMapKind>> = {
  steam: {
    schema: SteamLogMap,
    hasReference: true,
    sensors: 'loads',
    columns: [],
    hasConductivity: false,
    hasPressure: true,
  },
  gas: {
    schema: GasLogMap,
    hasReference: false,
    sensors: 'temperatures',
    columns: ['humidity', 'concentration', 'stage'],
    hasConductivity: false,
    hasPressure: true,
  },
  washer: {
    schema: WasherLogMap,
    hasReference: false,
    sensors: 'temperatures',
    columns: ['stage'],
    hasConductivity: true,
    hasPressure: false,
  },
}

/** Every column that a map names. */
export function columnsOf({ time, reference, above, loads = [], temperatures = [], ...single }: AnyLogMap): string[] {
  const { humidity, concentration, conductivity, stage, pressure } = single
  const named = [
    time,
    reference,
    above,
    ...loads,
    ...temperatures,
    humidity,
    concentration,
    conductivity,
    stage,
    pressure,
  ]
  return named.flatMap((each) => each?.column ?? [])
}

/** A map that was kept for a machine, when it is one of its kind and fits the columns of this log. */
export function keptLogMap(kind: LogKind, kept: unknown, header: readonly string[]): AnyLogMap | null {
  const parsed = logMapKinds[kind].schema.safeParse(kept)
  return parsed.success && columnsOf(parsed.data).every((column) => header.includes(column)) ? parsed.data : null
}

/** As it goes into an entry: what was left out is left out of the JSON too; null when something that is needed is missing. */
export function sentLogMap(kind: LogKind, map: AnyLogMap): NonNullable<Bodies['machine-registered']['logMap']> | null {
  const parsed = logMapKinds[kind].schema.safeParse(map)
  if (!parsed.success) return null
  return JSON.parse(JSON.stringify(parsed.data)) as NonNullable<Bodies['machine-registered']['logMap']>
}
