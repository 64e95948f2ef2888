import { readLines } from '#journal/line-file.ts'
import { openJournal } from '#journal/open-journal.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'
import { linesOf } from './lines.ts'

/** Takes over the lines of an export, from a file or from standard input: all of them or none. */
export function runImport(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'import',
      file: 'optional',
      async run({ at, file }) {
        await using journal = await openJournal({ at, road: theRoad, now: clock })
        const outcome = await journal.importLines(file === undefined ? textOf(io.stdin) : readLines(file))
        if (outcome.kind === 'notImported') {
          await io.stderr.write(`nothing was imported: line ${outcome.line}: ${outcome.says}\n`)
          return exit.failed
        }
        const { entries, alreadyKept, attachments } = outcome
        await io.stdout.write(
          `imported ${entries} entries and ${attachments} attachments; ${alreadyKept} entries were here already\n`,
        )
        return exit.ok
      },
    },
    args,
    io,
  )
}

async function* textOf(stream: CommandIo['stdin']): AsyncIterable<string> {
  for await (const { text } of linesOf(stream)) yield text
}
