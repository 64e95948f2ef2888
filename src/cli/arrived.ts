import { v7 } from 'uuid'
import { describeProblem } from '#units/problem.ts'
import { subjectOf } from '#road/subject.ts'
import { arrivalsOf } from '#service/intake/arrivals.ts'
import { recordLoadCycle } from '#service/cycles/record-load-cycle.ts'
import { toAnswer } from '#service/entries/record-entries.ts'
import { LoadCycleInput } from '#service/schemas/cycle.ts'
import { withoutSignIn } from '#service/sign-in/authorise-entry.ts'
import type { ArrivalRow } from '#service/machine-answers.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { refuse } from './known.ts'
import { machineByWord } from './machine-word.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'
import { exitRefused } from './record.ts'

const usage = 'arrived MACHINE [--log DIGEST --load LOAD --by PERSON [--cycle N]] [--json]'

/**
 * `arrived MACHINE` lists the logs that came by themselves, and which loads they may be of. With `--log`, `--load` and `--by` a person reads
 * one in for a load: none is ever read in by itself.
 */
export function runArrived(args: string[], io: CommandIo): Promise<number> {
  const options = { log: 'text', load: 'text', by: 'text', cycle: 'text', json: 'yes' } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run }, args, io)
}

async function run(call: UnitCall, io: CommandIo): Promise<number> {
  const { words, flags, reader } = call
  const machine = await machineByWord(reader, words[0] ?? '')
  if ('field' in machine) return refuse(io, describeProblem(machine))
  const arrivals = arrivalsOf({ ...call, now: clock })
  const rows = await arrivals.rows(machine.id)
  if (flags['log'] !== undefined) return await readIn(call, rows, io)
  if (flags['json'] === true) {
    await io.stdout.write(`${JSON.stringify(rows, null, 2)}\n`)
    return exit.ok
  }
  if (rows.length === 0) await io.stdout.write('Nothing came by itself.\n')
  for (const row of rows) await io.stdout.write(`${linesOf(row).join('\n')}\n`)
  return exit.ok
}

async function readIn(call: UnitCall, rows: readonly ArrivalRow[], io: CommandIo): Promise<number> {
  const { flags, reader } = call
  const named = textOf(flags['log']) ?? ''
  const found = rows.filter((row) => row.log?.startsWith(named))
  const [row] = found
  if (row === undefined || found.length > 1 || row.log === null)
    return refuse(io, `--log: wanted the digest of one arrived log, current value is ${JSON.stringify(named)}`)
  const loadWord = textOf(flags['load']) ?? ''
  const id = subjectOf('load').safeParse(loadWord.includes(':') ? loadWord : `load:${loadWord}`)
  const load = id.success ? (await reader.known([id.data])).get(id.data) : undefined
  if (load === undefined)
    return refuse(io, `--load: wanted a load of the record, current value is ${JSON.stringify(loadWord)}`)
  const by = textOf(flags['by']) ?? ''
  const input = LoadCycleInput.safeParse({
    id: v7(),
    by: by.includes(':') ? by : `person:${by}`,
    workstation: 'command line',
    arrived: row.log,
    program: load.program,
    ...(flags['cycle'] === undefined ? {} : { cycle: Number(flags['cycle']) }),
    ...(row.firstReadingAt === null ? {} : { startedAt: row.firstReadingAt }),
  })
  if (!input.success) {
    const [issue] = input.error.issues
    return refuse(io, `--${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'not usable'}`)
  }
  const recorded = await recordLoadCycle(
    { ...call, arrivals: arrivalsOf({ ...call, now: clock }) },
    load.id,
    input.data,
    withoutSignIn,
  )
  switch (recorded.kind) {
    case 'noLoad':
      return refuse(io, `--load: wanted a load of the record, current value is ${JSON.stringify(loadWord)}`)
    case 'unusable':
      return refuse(io, recorded.problems.map(describeProblem).join('; '))
    case 'outcome': {
      const answer = toAnswer(recorded.outcome)
      await io.stdout.write(`${JSON.stringify(answer)}\n`)
      if (answer.outcome === 'refused') return exitRefused
      return answer.outcome === 'kept' || answer.outcome === 'alreadyKept' ? exit.ok : exit.unusableInput
    }
  }
}

function linesOf({
  log,
  name,
  from,
  arrivedAt,
  cycles,
  problem,
  note,
  takenBy,
  proposals,
}: ArrivalRow): readonly string[] {
  const loads = proposals.map(({ load, minutesBefore }) => `${load} (built ${minutesBefore} min before)`)
  return [
    `${log === null ? 'not kept' : log.slice(0, 12)}  ${arrivedAt}  ${from}: ${name}`,
    ...(problem === null
      ? cycles.map((each) => `  cycle ${each.cycle}: ${each.startedAt} to ${each.endedAt}`)
      : [`  cannot be read: ${problem}`]),
    ...(note === null ? [] : [`  ${note}`]),
    ...(takenBy.length === 0 ? [] : [`  read in for ${takenBy.join(', ')}`]),
    ...(loads.length === 0 ? [] : [`  may be of ${loads.join(', ')}`]),
  ]
}
