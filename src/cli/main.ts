import { type CommandIo, exit, type TextSink } from './command.ts'
import { commands } from './commands.ts'

/** Finds the command and runs it; gives the exit code. */
export async function runMain(args: readonly string[], io: CommandIo): Promise<number> {
  const [name = 'help', ...rest] = args
  if (name === 'help' || name === '--help' || name === '-h') {
    await io.stdout.write(help())
    return exit.ok
  }
  const command = commands.find((candidate) => candidate.name === name)
  if (command === undefined) {
    const known = commands.map((candidate) => candidate.name).join(', ')
    await io.stderr.write(`command: wanted one of ${known} or help, current value is ${JSON.stringify(name)}\n`)
    return exit.unusableInput
  }
  const run = await command.load()
  return run(rest, io)
}

function help(): string {
  const width = Math.max(...commands.map(({ name }) => name.length))
  const lines = commands.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`)
  return ['Usage: nilgrowth COMMAND [ARG ...]', '', ...lines, ''].join('\n')
}

/** Writes to a stream of the process; each write settles when its text has gone out, or cannot. */
function sinkOf(stream: NodeJS.WriteStream): TextSink {
  // The failure reaches the writer through the callback below; without a listener it would also end the process.
  stream.on('error', () => undefined)
  return {
    write: (text) =>
      new Promise<void>((resolve, reject) => {
        stream.write(text, (error) => (error ? reject(error) : resolve()))
      }),
  }
}

async function runProcess(): Promise<void> {
  const io = { stdin: process.stdin, stdout: sinkOf(process.stdout), stderr: sinkOf(process.stderr) }
  try {
    process.exitCode = await runMain(process.argv.slice(2), io)
  } catch (error) {
    // A reader that leaves early (`| head`) is no failure of ours: stop, and say nothing.
    if (!(error instanceof Error && 'code' in error && error.code === 'EPIPE')) throw error
  }
}

if (import.meta.main) await runProcess()
