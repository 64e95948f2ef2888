import { describeProblem } from '#units/problem.ts'
import { instant } from '#road/instant.ts'
import { loadsForLog } from '#road/sterilising/loads-for-log.ts'
import type { CycleReport } from '#road/sterilising/entries.ts'
import type { SubjectId } from '#road/subject.ts'
import type { CycleReading } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { readInForce } from '../cycles/cycle-reader.ts'
import type { RunningAnswer, RunningReading } from '../machine-answers.ts'
import type { Running } from './line-listener.ts'

type Machine = SubjectId<'machine'>

const linesShown = 6

/**
 * What a machine prints just now, drawn and measured as far as it goes. It judges nothing: a cycle that is not over is not
 * evaluable, however good its beginning looks, and its answer has no room for another word.
 */
export async function runningCycle(
  context: RecordContext,
  machine: Machine,
  running: Running | undefined,
): Promise<Omit<RunningAnswer, 'practice'>> {
  if (running === undefined) return { machine, running: null }
  const known = (await context.reader.known([machine])).get(machine)
  const waiting = (await context.reader.knownOfKind('load', { standings: ['built'], limit: 200, order: 'newestFirst' }))
    .map((row) => row.known)
    .filter((load) => load.machine === machine)
  const proposals = loadsForLog(waiting, { startedAt: instant(Math.round(running.lastAt)) })
  const [only] = proposals
  const program = only?.program ?? known?.programs[0] ?? ''
  const about = {
    lines: running.lines,
    lastLineAt: instant(Math.round(running.lastAt)),
    latest: running.text.trimEnd().split('\n').slice(-linesShown),
    program,
    load: proposals.length === 1 ? (only?.load ?? null) : null,
  }
  const read = await readInForce(context, { text: running.text, program, machine })
  const cycle = 'problems' in read ? undefined : read.cycles.at(-1)
  if (cycle === undefined) {
    const says = 'problems' in read ? read.problems.map(describeProblem).join('; ') : null
    return { machine, running: { ...about, says, reading: null } }
  }
  return { machine, running: { ...about, says: null, reading: soFar(cycle) } }
}

function soFar({ report, chart }: CycleReading): RunningReading {
  return {
    seconds: chart.seconds.at(-1) ?? 0,
    phase: chart.phases.at(-1)?.phase ?? null,
    verdict: 'notEvaluable',
    criteria: report.criteria.map(criterionSoFar),
    chart,
  }
}

function criterionSoFar({ id, measured, limit, source }: CycleReport['criteria'][number]) {
  return { id, result: 'notEvaluable' as const, measured, limit, source }
}
