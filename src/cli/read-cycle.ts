import { describeProblem } from '#units/problem.ts'
import type { CriterionResult } from '#workings/steam/criterion.ts'
import { SteamLogMap } from '#workings/steam/log-map.ts'
import { SteamProgram } from '#workings/steam/program.ts'
import { steamProgramByKey } from '#workings/steam/programs.ts'
import { readSteamCycles } from '#workings/steam/read-steam-cycles.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'
import { type CommandIo, exit } from './command.ts'
import { readCycleArgs } from './read-cycle-args.ts'
import { readJsonFile, readLogFile } from './read-cycle-files.ts'
import { readingAsText } from './read-cycle-text.ts'

const verdictExit: Readonly<Record<CriterionResult, number>> = { met: 0, notMet: 3, notEvaluable: 4 }

/**
 * `read-cycle FILE|- --program KEY|FILE.json [--map FILE.json] [--volume L] [--cycle N] [--json]`.
 *
 * Exit 0 met, 3 not met, 4 not evaluable, 2 unusable input with one line on stderr. Several cycles without --cycle
 * give a list and the worst code: 3 when any is not met, else 4 when any is not evaluable, else 0.
 */
export async function runReadCycle(args: readonly string[], io: CommandIo): Promise<number> {
  const wanted = readCycleArgs(args)
  if (typeof wanted === 'string') return refuse(io, wanted)
  const program = await programOf(wanted.program)
  if (program.kind === 'problem') return refuse(io, program.says)
  const map = wanted.map === undefined ? null : await readJsonFile(wanted.map, 'map', SteamLogMap)
  if (map?.kind === 'problem') return refuse(io, map.says)
  const log = await readLogFile(wanted.file, io)
  if (log.kind === 'problem') return refuse(io, log.says)
  const result = readSteamCycles({
    log: log.text,
    program: program.value,
    map: map?.value,
    volumeLitres: wanted.volumeLitres,
    cycle: wanted.cycle,
  })
  if (result.kind === 'unusable') return refuse(io, describeProblem(result.problem))
  await io.stdout.write(wanted.json ? asJson(result.cycles) : result.cycles.map(readingAsText).join('\n'))
  return exitOf(result.cycles)
}

/** A key of the policy, or the programme in a JSON file. */
async function programOf(
  text: string,
): Promise<{ kind: 'value'; value: string | SteamProgram } | { kind: 'problem'; says: string }> {
  const isFile = /\.json$/i.test(text) && steamProgramByKey(text) === undefined
  return isFile ? readJsonFile(text, 'program', SteamProgram) : { kind: 'value', value: text }
}

function asJson(cycles: readonly SteamCycleReading[]): string {
  return `${JSON.stringify(cycles.length === 1 ? cycles[0] : cycles, null, 2)}\n`
}

function exitOf(cycles: readonly SteamCycleReading[]): number {
  const verdicts = new Set(cycles.map(({ verdict }) => verdict))
  if (verdicts.has('notMet')) return verdictExit.notMet
  return verdicts.has('notEvaluable') ? verdictExit.notEvaluable : verdictExit.met
}

async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\n`)
  return exit.unusableInput
}
