import type { Reader } from '#journal/journal.ts'
import type { Instant } from '#road/instant.ts'
import { type Prevention, preventions } from '#road/operating/prevention-entries.ts'
import type { CaseLine } from '#road/wounds/surveillance/line.ts'
import { type Rate, preventionDone, rateOf } from '#road/wounds/surveillance/rates.ts'
import { daysBefore, readLines } from './read-lines.ts'

export const rateGroups = ['procedure', 'month', 'surgeon', 'theatre', 'woundClass'] as const
export type RateGroup = (typeof rateGroups)[number]

export interface RatesBy {
  readonly from: string | null
  readonly all: Rate
  readonly groups: readonly { readonly group: string; readonly rate: Rate }[]
  readonly prevention: readonly {
    readonly measure: Prevention
    readonly done: number
    readonly notDone: number
    readonly unknown: number
  }[]
}

const groupOf: Readonly<Record<RateGroup, (line: CaseLine) => string>> = {
  procedure: (line) => line.category ?? line.procedure,
  month: (line) => line.day.slice(0, 7),
  surgeon: (line) => line.surgeon,
  theatre: (line) => line.theatre ?? '',
  woundClass: (line) => line.woundClass,
}

/** The rates of the last days, of all operations and by group. */
export async function ratesBy(reader: Reader, now: Instant, by: RateGroup, days: number | null): Promise<RatesBy> {
  const since = days === null ? undefined : daysBefore(now, days)
  const { lines } = await readLines(reader, now, since)
  const groups = new Map<string, CaseLine[]>()
  for (const line of lines) {
    const group = groupOf[by](line)
    const before = groups.get(group)
    if (before === undefined) groups.set(group, [line])
    else before.push(line)
  }
  return {
    from: lines[0]?.day ?? null,
    all: rateOf(lines),
    groups: [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([group, own]) => ({ group, rate: rateOf(own) })),
    prevention: preventions.map((measure) => ({ measure, ...preventionDone(lines, measure) })),
  }
}
