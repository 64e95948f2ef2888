import { SimulateInput } from '#service/schemas/plan.ts'
import { simulateDay } from '#service/planning/simulate-day.ts'
import type { SimulationOfDay } from '#service/planning/simulation-answer.ts'
import { minuteAsClock } from '#workings/planning/minute-as-clock.ts'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage = 'plan simulate DATE [--json] [--runs N] [--seconds N] [--seed N] [--late-from MINUTES] [--no-purchases]'

/**
 * `plan simulate DATE [--json] [--runs N] [--seconds N] [--seed N] [--late-from MINUTES] [--no-purchases]`: plans the day from
 * the record, runs the plan many times with durations that vary as on record, and says what each purchase would save. The
 * numbers mean, and are bounded, as in POST /api/plan/:day/simulate.
 *
 * Exit 0 with a simulation, 4 without a plan to run, 2 unusable input.
 */
export function runPlanSimulation(args: readonly string[], io: CommandIo): Promise<number> {
  const options = {
    json: 'yes',
    runs: 'text',
    seconds: 'text',
    seed: 'text',
    'late-from': 'text',
    'no-purchases': 'yes',
  } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run: show }, args, io)
}

async function show(call: UnitCall, io: CommandIo): Promise<number> {
  const [day = ''] = call.words
  if (!/^\d{4}-\d\d-\d\d$/.test(day) || Number.isNaN(Date.parse(day)))
    return refuse(io, `DATE: wanted a day such as 2026-11-26, current value is ${JSON.stringify(day)}`)
  const given = {
    ...numberAt('runs', call.flags['runs']),
    ...numberAt('seconds', call.flags['seconds']),
    ...numberAt('seed', call.flags['seed']),
    ...numberAt('lateFrom', call.flags['late-from']),
    purchases: call.flags['no-purchases'] !== true,
  }
  const asked = SimulateInput.safeParse(given)
  if (!asked.success) return refuse(io, problemsOf(asked.error, given).map(describeProblem).join('; '))
  const answer = await simulateDay(call, day, clock(), asked.data)
  await io.stdout.write(
    call.flags['json'] === true ? `${JSON.stringify(answer, null, 2)}\n` : asText(answer, asked.data.lateFrom),
  )
  return answer.simulated === null ? 4 : exit.ok
}

/** What is no number stays as it was typed, so that the answer can show it. */
function numberAt(name: string, flag: string | boolean | undefined): Readonly<Record<string, number | string>> {
  const text = textOf(flag)
  if (text === undefined) return {}
  const value = Number(text)
  return { [name]: text.trim() === '' || Number.isNaN(value) ? text : value }
}

function asText({ day, status, simulated, withoutSpread, savings }: SimulationOfDay, lateFrom: number): string {
  if (simulated === null) return `${day}: no plan to run.\n`
  const { runs, onTime, overtime, lateStarts, lateMinutes, ends } = simulated
  const proven = status === 'optimal' ? 'proven' : 'not proven'
  const lines = [
    `${day}: the plan (${proven}) run ${runs} times. Each figure with its standard error.`,
    `All lists end on time: ${percent(onTime.share)} ± ${percent(onTime.standardError)}`,
    `Overtime: ${withError(overtime)} min`,
    `Cases that begin more than ${lateFrom} min late: ${withError(lateStarts)}; together ${withError(lateMinutes)} min late`,
    ...ends.map(
      ({ theatre, mean, p90 }) =>
        `${theatre} ends at ${minuteAsClock(Math.round(mean))} on average, by ${minuteAsClock(Math.round(p90))} nine times in ten`,
    ),
    ...(withoutSpread.length === 0
      ? []
      : [`Run with what is planned, no spread on record: ${withoutSpread.join(', ')}`]),
    ...savings.map(
      ({ says, minutes, warning }) =>
        `${says}: saves ${withError(minutes)} min${warning === null ? '' : `. ${warning}`}`,
    ),
  ]
  return `${lines.join('\n')}\n`
}

function withError({ mean, standardError }: { readonly mean: number; readonly standardError: number }): string {
  return `${mean.toFixed(1)} ± ${standardError.toFixed(1)}`
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`
}

async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\nUsage: nilgrowth ${usage}\n`)
  return exit.unusableInput
}
