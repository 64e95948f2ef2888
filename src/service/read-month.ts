import { type Instant, instant } from '#road/instant.ts'
import { dayIn } from '#road/local-day.ts'
import { type MonthFigures, monthFigures } from '#road/sterilising/month-figures.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { type Rate, rateOf } from '#road/wounds/surveillance/rates.ts'
import type { Reader } from '#journal/journal.ts'
import { readLines } from './wounds/read-lines.ts'

/** A month of the unit's own calendar: what was sterilised, and how the wounds of its operations went. */
export interface MonthRead {
  readonly month: string
  readonly sterilising: MonthFigures
  readonly infections: Rate
}

export const monthForm = /^\d{4}-(?:0[1-9]|1[0-2])$/
const loadsAtOnce = 500
const hoursOfAnyZone = 15

/** The month asked for and those before it, the oldest first. */
export async function readMonths(
  reader: Reader,
  asked: { readonly month: string; readonly months: number; readonly now: Instant },
): Promise<readonly MonthRead[]> {
  const [unit] = await reader.standing('unit', ['open'])
  const timeZone = unit?.timeZone ?? 'UTC'
  const months = Array.from({ length: asked.months }, (_, index) => monthBefore(asked.month, asked.months - 1 - index))
  const [first = asked.month] = months
  const since = instant(Date.parse(`${first}-01T00:00:00Z`) - hoursOfAnyZone * 3_600_000)
  const loads = await loadsSince(reader, since)
  const { lines } = await readLines(reader, asked.now, since)
  return months.map((month) => ({
    month,
    sterilising: monthFigures(
      loads.filter(({ builtAt }) => builtAt !== null && dayIn(timeZone, builtAt).startsWith(month)),
    ),
    infections: rateOf(lines.filter((line) => line.day.startsWith(month))),
  }))
}

/** A load came to where it stands no earlier than it was built. */
async function loadsSince(reader: Reader, since: Instant): Promise<readonly LoadKnown[]> {
  const loads: LoadKnown[] = []
  let after: { readonly since: Instant; readonly subject: LoadKnown['id'] } | undefined
  while (true) {
    // A page names the next one.
    // oxlint-disable-next-line no-await-in-loop
    const page = await reader.knownOfKind('load', {
      limit: loadsAtOnce,
      order: 'newestFirst',
      ...(after === undefined ? {} : { after }),
    })
    const recent = page.filter((row) => row.since >= since)
    loads.push(...recent.map((row) => row.known))
    after = page.at(-1)
    if (recent.length < loadsAtOnce || after === undefined) return loads
  }
}

function monthBefore(month: string, back: number): string {
  const [year = 0, number = 1] = month.split('-').map(Number)
  const count = year * 12 + number - 1 - back
  return `${String(Math.floor(count / 12)).padStart(4, '0')}-${String((count % 12) + 1).padStart(2, '0')}`
}
