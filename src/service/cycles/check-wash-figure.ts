import { type Problem, problemsOf } from '#units/problem.ts'
import type { Instant } from '#road/instant.ts'
import type { Bodies, TypedSent } from '#road/kinds.ts'
import { readInForceAt } from '#road/sterilising/read-in-force.ts'
import type { RecordContext } from '../context.ts'
import { keptLog } from './cycle-reader.ts'
import { readWasherCycles } from '#workings/washer/read-washer-cycles.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { readWasherLog } from '#workings/washer/washer-log.ts'
import { WasherLogMap } from '#workings/washer/washer-map.ts'
import { washerPrograms } from '#workings/washer/washer-program.ts'
import { washLogFigures } from './wash-log-figures.ts'

/** Half a second either way: a figure is sent rounded. */
const rounding = 0.5

/**
 * The A0 sent for a washer with a log can be no more than its coldest channel gives over the whole log. Less is
 * right where the log goes on into the drying, which never counts.
 */
export async function checkWashFigure(
  context: RecordContext,
  { body: { how }, happenedAt }: Pick<Extract<TypedSent, { kind: 'wash-recorded' }>, 'body' | 'happenedAt'>,
): Promise<readonly Problem[]> {
  if (how.kind === 'manual' || how.log === undefined) return []
  const text = await keptLog(context, how.log)
  if (text === undefined) {
    return [{ field: 'body.how.log', wanted: 'the digest of a kept file', current: `"${how.log}"` }]
  }
  if (how.a0Seconds === null) return []
  const mapped = await mapOf(context, { how, at: happenedAt }, text)
  if ('problems' in mapped) return mapped.problems
  const figures = washLogFigures(text, mapped.map)
  if ('problem' in figures) return [{ ...figures.problem, field: `body.how.${figures.problem.field}` }]
  const { name, a0Seconds } = figures.coldest
  const problems: Problem[] = []
  if (how.coldestChannel !== undefined && !coldestNames(text, mapped.map, name).has(how.coldestChannel)) {
    problems.push({
      field: 'body.how.coldestChannel',
      wanted: JSON.stringify(name),
      current: JSON.stringify(how.coldestChannel),
    })
  }
  if (how.a0Seconds > a0Seconds + rounding) {
    const wanted = `at most ${Math.round(a0Seconds)} s, the A0 of the whole log`
    problems.push({ field: 'body.how.a0Seconds', wanted, current: String(how.a0Seconds) })
  }
  return problems
}

type Mapped = { readonly map: WasherLogMap | undefined } | { readonly problems: readonly Problem[] }

type ByWasher = Extract<Bodies['wash-recorded']['how'], { kind: 'washer' }>

/**
 * The map sent with the wash; else the one kept for its washer when it washed, where it fits this log; else the names of the
 * columns tell.
 */
async function mapOf(
  { reader }: RecordContext,
  { how: { machine, logMap }, at }: { readonly how: ByWasher; readonly at: Instant },
  text: string,
): Promise<Mapped> {
  if (logMap !== undefined) {
    const sent = WasherLogMap.safeParse(logMap)
    if (sent.success) return { map: sent.data }
    return {
      problems: problemsOf(sent.error, logMap).map((each) => ({ ...each, field: `body.how.logMap.${each.field}` })),
    }
  }
  const washer = (await reader.known([machine])).get(machine)
  const kept = WasherLogMap.safeParse(washer === undefined ? null : readInForceAt(washer, at).logMap)
  return { map: kept.success && !isUnusable(readWasherLog(text, kept.data)) ? kept.data : undefined }
}

/** The coldest channel over the whole log, and that of each cycle up to the end of its disinfection. */
function coldestNames(text: string, map: WasherLogMap | undefined, whole: string): ReadonlySet<string> {
  const read = washerPrograms.map(({ key }) => readWasherCycles({ log: text, program: key, map }))
  const cycles = read.flatMap((each) => (each.kind === 'read' ? each.cycles : []))
  return new Set([whole, ...cycles.flatMap(({ coldestChannel }) => coldestChannel ?? [])])
}
