import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { Reader } from '#journal/journal.ts'
import type { GroupAnswer, GroupSite } from './group-answer.ts'
import { daysBefore } from '../wounds/read-lines.ts'
import { ratesBy } from '../wounds/rates-by.ts'

/** What is needed of the record of a group: it is only read. */
export interface GroupRecord {
  read(site: SiteId): Reader
}

/** The longest look back, about eleven years. */
export const mostDaysCompared = 4000

/**
 * The sites of a group side by side: counts and rates, no patient, no person and no case. What a site has not recorded is
 * null or counted as not told, never as good.
 */
export async function compareSites(
  record: GroupRecord,
  sites: readonly SiteId[],
  { now, days }: { readonly now: Instant; readonly days: number },
): Promise<GroupAnswer> {
  const rows: GroupSite[] = []
  // One site after the other: a comparison may wait, and the work of the sites may not.
  for (const site of sites) rows.push(await figuresOf(record.read(site), now, days))
  return { days, sites: rows }
}

async function figuresOf(reader: Reader, now: Instant, days: number): Promise<GroupSite> {
  const head = await reader.head()
  const [unit] = await reader.standing('unit', ['open'])
  const recalls = await reader.standing('recall', ['open'])
  const { all, preventionComplete } = await ratesBy(reader, now, 'procedure', days)
  return {
    site: reader.site,
    name: unit?.name ?? null,
    entries: head?.seq ?? 0,
    lastRecordedAt: head?.recordedAt ?? null,
    openRecalls: recalls.length,
    indicators: await indicatorsSince(reader, daysBefore(now, days)),
    rate: all,
    preventionComplete,
  }
}

const loadsAtOnce = 500

/** Loads that came to their present standing in these days and had a biological indicator read, and those where one grew. */
async function indicatorsSince(reader: Reader, since: Instant): Promise<GroupSite['indicators']> {
  let read = 0
  let grown = 0
  let after: { readonly since: Instant; readonly subject: KnownOf<'load'>['id'] } | undefined
  while (true) {
    const page = await reader.knownOfKind('load', {
      limit: loadsAtOnce,
      order: 'newestFirst',
      ...(after === undefined ? {} : { after }),
    })
    const recent = page.filter((row) => row.since >= since)
    for (const { known } of recent) {
      if (known.biological.length > 0) read += 1
      if (known.biological.some(({ result }) => result === 'growth')) grown += 1
    }
    after = page.at(-1)
    if (recent.length < loadsAtOnce || after === undefined) return { read, grown }
  }
}
