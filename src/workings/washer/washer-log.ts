import { type PlainLog, readPlainLog, type WantedColumn } from '../logs/plain-log.ts'
import { withoutStuck } from '../logs/stuck-channels.ts'
import { celsiusOf, kelvinsIn } from '../steam/log-map.ts'
import { readLogText } from '../steam/log-text.ts'
import { isUnusable, type Unusable } from '../steam/unusable.ts'
import { microsiemensIn, type WasherLogMap, washerMapByNames } from './washer-map.ts'

export type WasherRole = 'temperature' | 'conductivity'
export type WasherLog = PlainLog<WasherRole>

const possible = {
  temperature: { low: -20, high: 200, unit: '°C' },
  conductivity: { low: -5, high: 1_000_000, unit: 'µS/cm' },
} as const

/** A washer's log as channels in order of time; what stands still while its like move is not believed. */
export function readWasherLog(text: string, given: WasherLogMap | undefined): WasherLog | Unusable {
  const table = readLogText(text, given?.time.column)
  if (isUnusable(table)) return table
  const mapped = given === undefined ? washerMapByNames(table) : { map: given, findings: [] }
  if (isUnusable(mapped)) return mapped
  const { map } = mapped
  const log = readPlainLog(table, { time: map.time, columns: columnsOf(map), words: map.stage?.column ?? null })
  if (isUnusable(log)) return log
  const told = { ...log, findings: [...mapped.findings, ...log.findings] }
  return withoutStuck(told, {
    leastSeconds: 60,
    moved: (role) => (role === 'temperature' ? 3 : Number.POSITIVE_INFINITY),
  })
}

function columnsOf({ temperatures, conductivity }: WasherLogMap): WantedColumn<WasherRole>[] {
  return [
    ...temperatures.map(({ column, unit }) => ({
      role: 'temperature' as const,
      column,
      scale: kelvinsIn[unit],
      convert: (reading: number) => celsiusOf(reading, unit),
      possible: possible.temperature,
    })),
    ...(conductivity === undefined
      ? []
      : [
          {
            role: 'conductivity' as const,
            column: conductivity.column,
            scale: microsiemensIn[conductivity.unit],
            convert: (reading: number) => reading * microsiemensIn[conductivity.unit],
            possible: possible.conductivity,
          },
        ]),
  ]
}
