import { performance } from 'node:perf_hooks'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { PlanInstance } from '#workings/planning/instance.ts'
import type { PlanAnswer } from '#workings/planning/plan-day.ts'
import { planInBackground } from '#service/planning/plan-in-background.ts'
import { type CommandIo, exit } from './command.ts'
import { parseJson } from './json-text.ts'
import { planArgs } from './plan-args.ts'
import { reasonsOf } from './plan-reasons.ts'
import { runPlanOfRecord } from './plan-of-record.ts'
import { runPlanSimulation } from './plan-simulate.ts'
import { planAsText } from './plan-text.ts'
import { readLogFile } from './read-cycle-files.ts'

const statusExit: Readonly<Record<PlanAnswer['status'], number>> = {
  optimal: 0,
  feasible: 0,
  infeasible: 3,
  unknown: 4,
}

/** Seconds to search for when nothing is said. */
const secondsByDefault = 30
/** Work of the solver for each rung when it is work that is limited, not time; about seconds of a usual processor. */
const solverWork = 30
const longest = 86_400

/**
 * `plan day DATE`: the day from the record, see `plan-of-record.ts`.
 * `plan simulate DATE`: the plan of a day run many times, see `plan-simulate.ts`.
 * `plan FILE|- [--json] [--seconds N] [--seed N] [--decodes N]`: plans a day from its instance, or from a file with the
 * field `instance`, and proves the plan or bounds it. It ends before its seconds when the plan is proven. With --decodes and
 * without --seconds, work is counted instead of time: the same file and seed give the same plan on every machine.
 *
 * Exit 0 with a plan, 3 proven that there is none, 4 none found, 2 unusable input with one line on stderr.
 */
export async function runPlan(args: readonly string[], io: CommandIo): Promise<number> {
  if (args[0] === 'day') return await runPlanOfRecord(args.slice(1), io)
  if (args[0] === 'simulate') return await runPlanSimulation(args.slice(1), io)
  const wanted = planArgs(args)
  if (typeof wanted === 'string') return refuse(io, wanted)
  const read = await readDay(wanted.file, io)
  if (typeof read === 'string') return refuse(io, read)
  const started = performance.now()
  const byWork = wanted.decodes !== undefined && wanted.seconds === undefined
  const answer = await planInBackground(read, {
    seed: wanted.seed,
    seconds: wanted.seconds ?? (byWork ? longest : secondsByDefault),
    ...(byWork ? { work: { decodes: wanted.decodes, solver: solverWork } } : {}),
  })
  const seconds = Math.round(performance.now() - started) / 1000
  await io.stdout.write(
    wanted.json
      ? `${JSON.stringify({ ...answer, reasons: reasonsOf(answer), seconds }, null, 2)}\n`
      : planAsText(read, answer),
  )
  return statusExit[answer.status]
}

async function readDay(file: string, io: CommandIo): Promise<PlanInstance | string> {
  const read = await readLogFile(file, io)
  if (read.kind === 'problem') return read.says
  const parsed = parseJson(read.text.replace(/^\uFEFF/, ''))
  if (parsed.kind === 'broken') return parsed.says
  const value = instanceIn(parsed.value)
  const checked = PlanInstance.safeParse(value)
  return checked.success ? checked.data : problemsOf(checked.error, value).map(describeProblem).join('; ')
}

/** The day itself, or the field `instance` of what was given. */
function instanceIn(value: unknown): unknown {
  const wrapped = typeof value === 'object' && value !== null && Object.hasOwn(value, 'instance')
  return wrapped ? Reflect.get(value, 'instance') : value
}

async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\n`)
  return exit.unusableInput
}
