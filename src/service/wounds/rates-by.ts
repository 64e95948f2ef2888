import type { Reader } from '#journal/journal.ts'
import type { Instant } from '#road/instant.ts'
import { type Prevention, preventions } from '#road/operating/prevention-entries.ts'
import type { CaseLine } from '#road/wounds/surveillance/line.ts'
import type { DurationCut } from '#road/wounds/surveillance/duration-cut.ts'
import { riskCategories } from '#road/wounds/surveillance/risk-index.ts'
import { type Rate, preventionDone, rateOf } from '#road/wounds/surveillance/rates.ts'
import { daysBefore, readLines } from './read-lines.ts'

export const rateGroups = ['procedure', 'month', 'surgeon', 'theatre', 'woundClass', 'riskIndex'] as const
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
  /** Of how many operations every measure that guards the wound has an answer. */
  readonly preventionComplete: number
  /** What a long operation is, by kind, and whether it is the unit’s own percentile or a given one. */
  readonly cuts: readonly DurationCut[]
}

const groupOf: Readonly<Record<RateGroup, (line: CaseLine) => string>> = {
  procedure: (line) => line.category ?? line.procedure,
  month: (line) => line.day.slice(0, 7),
  surgeon: (line) => line.surgeon,
  theatre: (line) => line.theatre ?? '',
  woundClass: (line) => line.woundClass,
  riskIndex: (line) => line.riskIndex.category ?? 'notEvaluable',
}

/** Letters and figures in the order of the alphabet, but the index in that of rising risk. */
const inOrder = (by: RateGroup) => (a: string, b: string) =>
  by === 'riskIndex' ? placeOf(a) - placeOf(b) : a < b ? -1 : 1

function placeOf(category: string): number {
  const place = riskCategories.findIndex((each) => each === category)
  return place < 0 ? riskCategories.length : place
}

/** The rates of the last days, of all operations and by group. */
export async function ratesBy(reader: Reader, now: Instant, by: RateGroup, days: number | null): Promise<RatesBy> {
  const since = days === null ? undefined : daysBefore(now, days)
  const { lines, cuts } = await readLines(reader, now, since)
  const order = inOrder(by)
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
    groups: [...groups].sort(([a], [b]) => order(a, b)).map(([group, own]) => ({ group, rate: rateOf(own) })),
    prevention: preventions.map((measure) => ({ measure, ...preventionDone(lines, measure) })),
    preventionComplete: lines.filter(({ preventionTold: { told, asked } }) => told === asked).length,
    cuts: [...cuts.values()],
  }
}
