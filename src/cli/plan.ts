import { performance } from 'node:perf_hooks'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { PlanInstance } from '#workings/planning/instance.ts'
import { type PlanAnswer, planDay } from '#workings/planning/plan-day.ts'
import { type CommandIo, exit } from './command.ts'
import { parseJson } from './json-text.ts'
import { planArgs } from './plan-args.ts'
import { planAsText } from './plan-text.ts'
import { readLogFile } from './read-cycle-files.ts'

const statusExit: Readonly<Record<PlanAnswer['status'], number>> = {
  optimal: 0,
  feasible: 0,
  infeasible: 3,
  unknown: 4,
}

/** Seconds to search for when nothing is said. */
const secondsByDefault = 5

/**
 * `plan FILE|- [--json] [--seconds N] [--seed N] [--decodes N]`: plans a day from its instance, or from a file with the
 * field `instance`. With --decodes and without --seconds the same file and seed give the same plan on every machine.
 *
 * Exit 0 with a plan, 3 proven that there is none, 4 none found, 2 unusable input with one line on stderr.
 */
export async function runPlan(args: readonly string[], io: CommandIo): Promise<number> {
  const wanted = planArgs(args)
  if (typeof wanted === 'string') return refuse(io, wanted)
  const read = await readDay(wanted.file, io)
  if (typeof read === 'string') return refuse(io, read)
  const started = performance.now()
  const secondsNow = (): number => (performance.now() - started) / 1000
  const seconds = wanted.seconds ?? (wanted.decodes === undefined ? secondsByDefault : Number.POSITIVE_INFINITY)
  const answer = planDay(read, {
    seed: wanted.seed,
    decodes: wanted.decodes ?? Number.MAX_SAFE_INTEGER,
    stop: () => secondsNow() >= seconds,
  })
  const took = Math.round(secondsNow() * 1000) / 1000
  await io.stdout.write(
    wanted.json ? `${JSON.stringify({ ...answer, seconds: took }, null, 2)}\n` : planAsText(read, answer),
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
