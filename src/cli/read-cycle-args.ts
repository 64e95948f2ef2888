import { numberOption, parsedOptions } from './parsed-options.ts'

/** What the command line asks of the reader, before any file is opened. */
export interface ReadCycleArgs {
  readonly file: string
  readonly program: string
  readonly map: string | undefined
  readonly volumeLitres: number | undefined
  readonly cycle: number | undefined
  readonly json: boolean
}

const options = {
  program: { type: 'string' },
  map: { type: 'string' },
  volume: { type: 'string' },
  cycle: { type: 'string' },
  json: { type: 'boolean' },
} as const

export const readCycleUsage =
  'read-cycle FILE|- --program KEY|FILE.json [--map FILE.json] [--volume L] [--cycle N] [--json]'

/** Reads the arguments; gives one line of text when they cannot be used. */
export function readCycleArgs(args: readonly string[]): ReadCycleArgs | string {
  const parsed = parsedOptions(args, options)
  if (parsed === null || parsed.positionals.length !== 1 || parsed.values.program === undefined)
    return `arguments: wanted ${readCycleUsage}, current value is ${JSON.stringify(args.join(' '))}`
  const { program, map, json = false } = parsed.values
  const volumeLitres = positive(parsed.values.volume)
  if (volumeLitres === null)
    return `--volume: wanted litres > 0, current value is ${JSON.stringify(parsed.values.volume)}`
  const cycle = positive(parsed.values.cycle)
  if (cycle === null || (cycle !== undefined && !Number.isInteger(cycle)))
    return `--cycle: wanted a whole number >= 1, current value is ${JSON.stringify(parsed.values.cycle)}`
  return { file: parsed.positionals[0] ?? '-', program, map, volumeLitres, cycle, json }
}

/** Undefined when not given, null when it is no positive number. */
function positive(text: string | undefined): number | null | undefined {
  const value = numberOption(text)
  return typeof value === 'number' && value <= 0 ? null : value
}
