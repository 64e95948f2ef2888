import { planOfDay } from '#service/planning/plan-of-day.ts'
import type { PlanAnswer } from '#workings/planning/plan-day.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'
import { planAsText } from './plan-text.ts'

const usage = 'plan day DATE [--json] [--seconds N] [--replan]'

const statusExit: Readonly<Record<PlanAnswer['status'], number>> = {
  optimal: 0,
  feasible: 0,
  infeasible: 3,
  unknown: 4,
}

/**
 * `plan day DATE [--json] [--seconds N] [--replan]`: makes the day from the record and plans it; with --replan the kept
 * plan is planned again from now with the least disturbance.
 *
 * Exit 0 with a plan, 3 proven that there is none, 4 none found or nothing to plan, 2 unusable input.
 */
export function runPlanOfRecord(args: readonly string[], io: CommandIo): Promise<number> {
  const options = { json: 'yes', seconds: 'text', replan: 'yes' } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run: show }, args, io)
}

async function show(call: UnitCall, io: CommandIo): Promise<number> {
  const [day = ''] = call.words
  const seconds = Number(textOf(call.flags['seconds']) ?? '5')
  if (!/^\d{4}-\d\d-\d\d$/.test(day) || Number.isNaN(Date.parse(day)))
    return refuse(io, `DATE: wanted a day such as 2026-11-26, current value is ${JSON.stringify(day)}`)
  if (!(seconds > 0 && seconds <= 86_400))
    return refuse(io, `--seconds: wanted a number > 0 and <= 86400, current value is ${String(call.flags['seconds'])}`)
  const replan = call.flags['replan'] === true
  const answer = await planOfDay(call, day, clock(), { seconds, replan })
  const { instance, plan, why } = answer
  if (call.flags['json'] === true) await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
  else {
    if (instance !== null && plan !== null) await io.stdout.write(planAsText(instance, plan))
    if (why !== null) await io.stdout.write(`${why.binding.says}\n`)
    for (const { says } of answer.replanned?.changes ?? []) await io.stdout.write(`Changed: ${says}\n`)
    for (const { weight, says } of answer.findings) await io.stdout.write(`${weight}: ${says}\n`)
  }
  return plan === null ? 4 : statusExit[plan.status]
}

async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\nUsage: nilgrowth ${usage}\n`)
  return exit.unusableInput
}
