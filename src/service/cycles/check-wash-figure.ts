import type { Problem } from '#units/problem.ts'
import type { Bodies } from '#road/kinds.ts'
import type { RecordContext } from '../context.ts'
import { keptLog } from './cycle-reader.ts'
import { readWasherCycles } from '#workings/washer/read-washer-cycles.ts'
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
  how: Bodies['wash-recorded']['how'],
): Promise<readonly Problem[]> {
  if (how.kind === 'manual' || how.log === undefined) return []
  const text = await keptLog(context, how.log)
  if (text === undefined) {
    return [{ field: 'body.how.log', wanted: 'the digest of a kept file', current: `"${how.log}"` }]
  }
  if (how.a0Seconds === null) return []
  const figures = washLogFigures(text)
  if ('problem' in figures) return [{ ...figures.problem, field: `body.how.${figures.problem.field}` }]
  const { name, a0Seconds } = figures.coldest
  const problems: Problem[] = []
  if (how.coldestChannel !== undefined && !coldestNames(text, name).has(how.coldestChannel)) {
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

/** The coldest channel over the whole log, and that of each cycle up to the end of its disinfection. */
function coldestNames(text: string, whole: string): ReadonlySet<string> {
  const read = washerPrograms.map(({ key }) => readWasherCycles({ log: text, program: key }))
  const cycles = read.flatMap((each) => (each.kind === 'read' ? each.cycles : []))
  return new Set([whole, ...cycles.flatMap(({ coldestChannel }) => coldestChannel ?? [])])
}
