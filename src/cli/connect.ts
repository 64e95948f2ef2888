import { describeProblem } from '#units/problem.ts'
import { subjectOf } from '#road/subject.ts'
import { readConfig } from '#service/config.ts'
import { connectionsOf, notConnected, problemsOfConnection } from '#service/intake/connections.ts'
import { MachineConnection } from '#service/machine-answers.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { refuse } from './known.ts'
import { machineByWord } from './machine-word.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage =
  'connect MACHINE [--folder PATH] [--address A --port N [--from A] [--start TEXT] [--end TEXT] [--silence SECONDS]] [--off] [--by PERSON] [--json]'

/**
 * `connect MACHINE` shows how a machine is connected; with a folder or a port it is set, with `--off` it is ended. The running service
 * takes it up within seconds. What the settings of the service do not allow is refused: they are read from the same environment.
 */
export function runConnect(args: string[], io: CommandIo): Promise<number> {
  const text = ['folder', 'address', 'port', 'from', 'start', 'end', 'silence', 'by'] as const
  const options = {
    ...Object.fromEntries(text.map((name) => [name, 'text' as const])),
    off: 'yes',
    json: 'yes',
  } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run }, args, io)
}

async function run({ journal, reader, site, words, flags }: UnitCall, io: CommandIo): Promise<number> {
  const machine = await machineByWord(reader, words[0] ?? '')
  if ('field' in machine) return refuse(io, describeProblem(machine))
  const connections = connectionsOf(journal.notes, site)
  const asked = askedOf(flags)
  if (asked !== null) {
    const by = subjectOf('person').safeParse(byOf(textOf(flags['by'])))
    if (!by.success)
      return refuse(
        io,
        `--by: wanted who changes it, such as ada, current value is ${JSON.stringify(flags['by'] ?? 'missing')}`,
      )
    const connection = MachineConnection.safeParse(asked)
    if (!connection.success) {
      const [issue] = connection.error.issues
      return refuse(io, `--${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'not usable'}`)
    }
    const config = readConfig(process.env)
    if (config.kind === 'unusable') return refuse(io, config.says)
    const others = await connections.all()
    const settings = config.config.machines
    const problems = problemsOfConnection({ machine, connection: connection.data, others, settings })
    if (problems.length > 0) return refuse(io, problems.map(describeProblem).join('; '))
    await connections.set({ machine: machine.id, connection: connection.data, changedBy: by.data, changedAt: clock() })
  }
  const kept = await connections.of(machine.id)
  const connection = kept?.connection ?? notConnected
  if (flags['json'] === true) {
    await io.stdout.write(`${JSON.stringify({ machine: machine.id, ...kept, connection }, null, 2)}\n`)
    return exit.ok
  }
  await io.stdout.write(`${machine.name}\n${linesOf(connection).join('\n')}\n`)
  if (kept !== undefined) await io.stdout.write(`Changed by ${kept.changedBy} at ${kept.changedAt}\n`)
  return exit.ok
}

function byOf(word: string | undefined): string | undefined {
  return word === undefined || word.includes(':') ? word : `person:${word}`
}

/** What is to be set; null when it is only to be shown. */
function askedOf(flags: UnitCall['flags']): unknown {
  if (flags['off'] === true) return notConnected
  const text = (name: string) => textOf(flags[name]) ?? null
  const [folder, address, port] = [text('folder'), text('address'), text('port')]
  if (folder === null && address === null && port === null) return null
  const line = {
    address: address ?? '127.0.0.1',
    port: Number(port),
    from: text('from'),
    startMark: text('start'),
    endMark: text('end'),
    silenceSeconds: Number(text('silence') ?? 300),
  }
  return { folder, line: address === null && port === null ? null : line }
}

function linesOf({ folder, line }: MachineConnection): readonly string[] {
  if (folder === null && line === null) return ['Not connected: its logs are brought by hand.']
  const marks =
    line === null
      ? []
      : [line.startMark && `begins at "${line.startMark}"`, line.endMark && `ends at "${line.endMark}"`]
  return [
    ...(folder === null ? [] : [`Folder: ${folder}`]),
    ...(line === null
      ? []
      : [
          `Line: ${line.address}, port ${line.port}, from ${line.from ?? 'any address'}`,
          `A cycle ${[...marks.filter(Boolean), `is over after ${line.silenceSeconds} seconds of silence`].join(', ')}`,
        ]),
  ]
}
