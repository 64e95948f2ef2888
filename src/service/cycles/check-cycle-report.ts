import type { Problem } from '#units/problem.ts'
import type { Bodies } from '#road/kinds.ts'
import { instant, millis } from '#road/instant.ts'
import type { CycleReport } from '#road/sterilising/entries.ts'
import { canonicalJson } from '#journal/canonical-json.ts'
import type { CycleReading } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { keptLog, readInForce } from './cycle-reader.ts'

/** Times may be sent rounded to minutes. */
const lengthSlackMilliseconds = 60_000

/** Reads the log again, by the limits that were in force when the cycle began, and compares; what differs is named, with the figure that the log gives. */
export async function checkCycleReport(
  context: RecordContext,
  body: Bodies['cycle-logged'],
): Promise<readonly Problem[]> {
  const text = await keptLog(context, body.log)
  if (text === undefined) return [{ field: 'body.log', wanted: 'the digest of a kept file', current: `"${body.log}"` }]
  const load = (await context.reader.known([body.load])).get(body.load)
  // An unknown load is told by the journal, with everything else that is not known.
  if (load === undefined) return []
  const { program, logMap: map, cycleInLog: cycleNumber, startedAt } = body
  const read = await readInForce(
    context,
    { text, program, machine: load.machine, map, cycle: cycleNumber, startedAt },
    startedAt,
  )
  if ('problems' in read) return read.problems.map((each) => ({ ...each, field: `body.${each.field}` }))
  const [cycle, ...others] = read.cycles
  if (cycle === undefined || others.length > 0) {
    const wanted = `which of the ${read.cycles.length} cycles in the log`
    return [{ field: 'body.cycleInLog', wanted, current: 'missing' }]
  }
  return [...differences(body.report, cycle.report), ...problemsOfLength(body, cycle)]
}

/** Where the first reading falls may be told by a person, but how long the cycle took is told by the log alone. */
function problemsOfLength(
  { startedAt, endedAt }: Bodies['cycle-logged'],
  read: Pick<CycleReading, 'startedAt' | 'endedAt'>,
): Problem[] {
  if (read.startedAt === null || read.endedAt === null) return []
  const length = Date.parse(read.endedAt) - Date.parse(read.startedAt)
  if (Math.abs(millis(endedAt) - millis(startedAt) - length) <= lengthSlackMilliseconds) return []
  const end = instant(millis(startedAt) + length)
  return [{ field: 'body.endedAt', wanted: `"${end}", as the log gives it`, current: `"${endedAt}"` }]
}

function differences(sent: CycleReport, read: CycleReport): Problem[] {
  const fields = Object.keys(read) as (keyof CycleReport)[]
  return fields
    .filter((field) => canonicalJson(sent[field]) !== canonicalJson(read[field]))
    .map((field) => ({
      field: `body.report.${field}`,
      wanted: `${shown(read[field])}, as the log gives it`,
      current: shown(sent[field]),
    }))
}

function shown(value: unknown): string {
  const text = JSON.stringify(value)
  return text.length > 120 ? `${text.slice(0, 119)}…` : text
}
