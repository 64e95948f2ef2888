import { numberOption, parsedOptions } from './parsed-options.ts'

/** What the command line asks of the planner. */
export interface PlanArgs {
  readonly file: string
  readonly json: boolean
  readonly seconds: number | undefined
  readonly seed: number
  readonly decodes: number | undefined
}

const options = {
  json: { type: 'boolean' },
  seconds: { type: 'string' },
  seed: { type: 'string' },
  decodes: { type: 'string' },
} as const

const usage = 'plan FILE|- [--json] [--seconds N] [--seed N] [--decodes N]'

/** Reads the arguments; gives one line of text when they cannot be used. */
export function planArgs(args: readonly string[]): PlanArgs | string {
  const parsed = parsedOptions(args, options)
  if (parsed === null || parsed.positionals.length !== 1)
    return `arguments: wanted ${usage}, current value is ${JSON.stringify(args.join(' '))}`
  const { json = false } = parsed.values
  const seconds = numberOption(parsed.values.seconds)
  if (seconds === null || (seconds !== undefined && (seconds <= 0 || seconds > 86_400)))
    return `--seconds: wanted a number > 0 and <= 86400, current value is ${JSON.stringify(parsed.values.seconds)}`
  const seed = numberOption(parsed.values.seed) ?? (parsed.values.seed === undefined ? 1 : null)
  if (seed === null || !Number.isInteger(seed) || seed < 0)
    return `--seed: wanted a whole number >= 0, current value is ${JSON.stringify(parsed.values.seed)}`
  const decodes = numberOption(parsed.values.decodes)
  if (decodes === null || (decodes !== undefined && (!Number.isInteger(decodes) || decodes < 1)))
    return `--decodes: wanted a whole number >= 1, current value is ${JSON.stringify(parsed.values.decodes)}`
  return { file: parsed.positionals[0] ?? '-', json, seconds, seed, decodes }
}
