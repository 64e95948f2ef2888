import type { Problem } from '#units/problem.ts'
import type { SubjectId } from '#road/subject.ts'
import type { CycleChart } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { keptLog, readInForce } from './cycle-reader.ts'

type LoadChart =
  | { readonly kind: 'chart'; readonly chart: CycleChart }
  | { readonly kind: 'noCycle' }
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

/** The curves of a load's cycle, drawn from the kept log by the limits that were in force when it was run. */
export async function readLoadChart(context: RecordContext, id: SubjectId<'load'>): Promise<LoadChart> {
  const load = (await context.reader.known([id])).get(id)
  const cycle = load?.cycle ?? null
  const text = cycle === null ? undefined : await keptLog(context, cycle.log)
  if (load === undefined || cycle === null || text === undefined) return { kind: 'noCycle' }
  const { program, logMap: map, cycleInLog = 1, startedAt } = cycle
  const read = await readInForce(context, { text, program, machine: load.machine, map, cycle: cycleInLog }, startedAt)
  if ('problems' in read) return { kind: 'unusable', problems: read.problems }
  const [first] = read.cycles
  return first === undefined ? { kind: 'noCycle' } : { kind: 'chart', chart: first.chart }
}
