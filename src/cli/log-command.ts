import { parseArgs } from 'node:util'
import type { z } from 'zod'
import { describeProblem, type Problem } from '#units/problem.ts'
import { citeSource } from '#units/source.ts'
import type { Instant } from '#road/instant.ts'
import { startOfLog } from '#service/cycles/start-of-log.ts'
import type { LogCriterion } from '#workings/logs/judged.ts'
import type { CriterionResult } from '#workings/steam/criterion.ts'
import type { SteamFinding } from '#workings/steam/finding.ts'
import { type CommandIo, exit } from './command.ts'
import { mapOfMachine } from './map-of-machine.ts'
import { readJsonFile, readLogFile } from './read-cycle-files.ts'
import { caution } from './read-cycle-text.ts'

/** What every reading of a log has, whatever the machine. */
export interface JudgedReading {
  readonly verdict: CriterionResult
  readonly criteria: readonly LogCriterion[]
  readonly findings: readonly SteamFinding[]
}

export type LogRead<Reading> =
  | { readonly kind: 'read'; readonly cycles: readonly Reading[] }
  | { readonly kind: 'unusable'; readonly problem: Problem }

/** Where a record is, as the arguments name it. */
export interface RecordAsked {
  readonly data: string | undefined
  readonly database: string | undefined
  readonly site: string | undefined
}

const noRecord: RecordAsked = { data: undefined, database: undefined, site: undefined }

export interface LogCommand<Program, Map, Reading extends JudgedReading> {
  readonly name: string
  readonly program: z.ZodType<Program>
  readonly map: z.ZodType<Map>
  /** Whether `--data`, `--database` and `--site` name a record whose limits judge; else they only name whose `--machine` it is. */
  readonly takesRecord?: true
  readonly hasKey: (key: string) => boolean
  readonly read: (request: {
    readonly log: string
    readonly program: string | Program
    readonly map: Map | undefined
    readonly cycle: number | undefined
    readonly record: RecordAsked | undefined
  }) => LogRead<Reading> | Promise<LogRead<Reading>>
  /** The lines for people between the verdict and the criteria. */
  readonly figures: (reading: Reading) => readonly string[]
}

const verdictExit: Readonly<Record<CriterionResult, number>> = { met: 0, notMet: 3, notEvaluable: 4 }
const resultWords: Readonly<Record<CriterionResult, string>> = {
  met: 'met',
  notMet: 'NOT MET',
  notEvaluable: 'not evaluable',
}

/**
 * `NAME FILE|- --program KEY|FILE.json [--map FILE.json | --machine KEY] [--cycle N] [--json]`, and where a record is. Exit 0 met, 3 not met, 4 not evaluable,
 * 2 unusable input with one line on stderr; of several cycles the worst decides.
 */
export async function runLogCommand<Program, Map, Reading extends JudgedReading>(
  command: LogCommand<Program, Map, Reading>,
  args: readonly string[],
  io: CommandIo,
): Promise<number> {
  const wanted = argsOf(command, args)
  if (typeof wanted === 'string') return refuse(io, wanted)
  const inFile = /\.json$/i.test(wanted.program) && !command.hasKey(wanted.program)
  const program = inFile ? await readJsonFile(wanted.program, 'program', command.program) : wanted.program
  if (typeof program === 'object' && program.kind === 'problem') return refuse(io, program.says)
  const log = await readLogFile(wanted.file, io)
  if (log.kind === 'problem') return refuse(io, log.says)
  const map = await mapOf(command, wanted, startOfLog(log.text, undefined))
  if (map?.kind === 'problem') return refuse(io, map.says)
  const result = await command.read({
    log: log.text,
    program: typeof program === 'string' ? program : program.value,
    map: map?.value,
    cycle: wanted.cycle,
    record: wanted.record,
  })
  if (result.kind === 'unusable') return refuse(io, describeProblem(result.problem))
  const { cycles } = result
  const json = () => `${JSON.stringify(cycles.length === 1 ? cycles[0] : cycles, null, 2)}\n`
  await io.stdout.write(
    wanted.json ? json() : cycles.map((each, place) => textOf(command, each, place, cycles.length)).join('\n'),
  )
  const verdicts = new Set(cycles.map(({ verdict }) => verdict))
  if (verdicts.has('notMet')) return verdictExit.notMet
  return verdicts.has('notEvaluable') ? verdictExit.notEvaluable : verdictExit.met
}

/** The map of a file, or the one that is kept for a machine of a record; of the time of the log where the log tells it. */
async function mapOf<Map>(
  { map }: { readonly map: z.ZodType<Map> },
  wanted: Args,
  at: Instant | null,
): Promise<{ kind: 'value'; value: Map } | { kind: 'problem'; says: string } | null> {
  if (wanted.map !== undefined) return await readJsonFile(wanted.map, 'map', map)
  if (wanted.machine === undefined) return null
  const kept = await mapOfMachine(wanted.record ?? noRecord, wanted.machine, at)
  if ('field' in kept) return { kind: 'problem', says: describeProblem(kept) }
  const parsed = map.safeParse(kept.logMap)
  if (parsed.success) return { kind: 'value', value: parsed.data }
  const problem = {
    field: '--machine',
    wanted: 'a machine with a kept map for logs of this kind',
    current: `${JSON.stringify(wanted.machine)}, which has ${kept.logMap === null ? 'none' : 'one of another kind'}`,
  }
  return { kind: 'problem', says: describeProblem(problem) }
}

interface Args {
  readonly file: string
  readonly program: string
  readonly map: string | undefined
  readonly machine: string | undefined
  readonly cycle: number | undefined
  readonly json: boolean
  readonly record: RecordAsked | undefined
}

function argsOf(
  command: { readonly name: string; readonly takesRecord?: true },
  args: readonly string[],
): Args | string {
  const { name, takesRecord = false } = command
  const where = '[--data FILE | --database URL] [--site SITE]'
  const asked = takesRecord
    ? `[--map FILE.json | --machine KEY] ${where}`
    : `[--map FILE.json | --machine KEY ${where}]`
  const usage = `${name} FILE|- --program KEY|FILE.json ${asked} [--cycle N] [--json]`
  const wrong = `arguments: wanted ${usage}, current value is ${JSON.stringify(args.join(' '))}`
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        data: { type: 'string' },
        database: { type: 'string' },
        site: { type: 'string' },
        program: { type: 'string' },
        map: { type: 'string' },
        machine: { type: 'string' },
        cycle: { type: 'string' },
        json: { type: 'boolean' },
      },
    })
    const [file, ...more] = positionals
    if (file === undefined || more.length > 0 || values.program === undefined) return wrong
    const cycle = values.cycle === undefined ? undefined : Number(values.cycle)
    if (cycle !== undefined && !(Number.isInteger(cycle) && cycle >= 1))
      return `--cycle: wanted a whole number >= 1, current value is ${JSON.stringify(values.cycle)}`
    const { data, database, site, map, machine } = values
    if (map !== undefined && machine !== undefined) return wrong
    const record = [data, database, site].every((each) => each === undefined) ? undefined : { data, database, site }
    if (record !== undefined && !takesRecord && machine === undefined) return wrong
    return { file, program: values.program, map, machine, cycle, json: values.json ?? false, record }
  } catch {
    return wrong
  }
}

function textOf<Program, Map, Reading extends JudgedReading>(
  command: LogCommand<Program, Map, Reading>,
  reading: Reading,
  place: number,
  cycles: number,
): string {
  return [
    `Cycle ${place + 1} of ${cycles}: ${resultWords[reading.verdict]}`,
    '',
    ...command.figures(reading).map((line) => `  ${line}`),
    '',
    ...reading.criteria.flatMap(({ title, result, says, source }) => [
      `  ${resultWords[result].padEnd(14)} ${title}: ${says}`,
      `  ${''.padEnd(14)} ${citeSource(source)}`,
    ]),
    ...(reading.findings.length === 0
      ? []
      : ['', 'Findings', ...reading.findings.map(({ weight, says }) => `  ${weight}: ${says}`)]),
    '',
    caution,
    '',
  ].join('\n')
}

async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\n`)
  return exit.unusableInput
}
