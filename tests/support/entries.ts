import { type EntryId, SentEntry, type SiteId, SiteId as SiteIdSchema } from '#road/entry.ts'
import { type Instant, instant, millis } from '#road/instant.ts'

/** When the stories of the tests begin. */
export const start = '2026-11-25T09:00:00.000Z' as Instant
export const site: SiteId = SiteIdSchema.parse('unit-a')
export const otherSite: SiteId = SiteIdSchema.parse('unit-b')

export function minutes(count: number): Instant {
  return instant(millis(start) + count * 60_000)
}

/** A UUID of version 7 that can be made again: its order is that of `number`. */
export function entryId(number: number): EntryId {
  const hex = number.toString(16).padStart(12, '0')
  return `01a211e0-0000-7000-8000-${hex}` as EntryId
}

export interface EntryParts {
  readonly number: number
  readonly kind: string
  readonly body: Record<string, unknown>
  readonly at?: Instant
  readonly by?: string
  readonly corrects?: number
  readonly site?: SiteId
}

/** An entry as a screen would send it. */
export function sent({
  number,
  kind,
  body,
  at = start,
  by = 'person:nilgrowth',
  corrects,
  ...rest
}: EntryParts): SentEntry {
  return SentEntry.parse({
    id: entryId(number),
    site: rest.site ?? site,
    kind,
    happenedAt: at,
    by,
    workstation: 'bench',
    body,
    ...(corrects === undefined ? {} : { corrects: entryId(corrects) }),
  })
}

export const makeSet = (number: number, set: string, rest: Partial<EntryParts> = {}): SentEntry =>
  sent({ number, kind: 'set-made', body: { set: `set:${set}` }, ...rest })

export const mark = (number: number, set: string, rest: Partial<EntryParts> & { mark?: string } = {}): SentEntry => {
  const { mark: text = `m${number}`, ...parts } = rest
  return sent({ number, kind: 'set-marked', body: { set: `set:${set}`, mark: text }, ...parts })
}

export const join = (number: number, [set, to]: readonly [string, string], rest: Partial<EntryParts> = {}): SentEntry =>
  sent({ number, kind: 'sets-joined', body: { set: `set:${set}`, to: `set:${to}`, mark: `j${number}` }, ...rest })

export const withdraw = (number: number, corrects: number, rest: Partial<EntryParts> = {}): SentEntry =>
  sent({ number, kind: 'entry-withdrawn', body: { why: 'entered by mistake' }, corrects, ...rest })
