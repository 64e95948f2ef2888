import { writeLines } from '#journal/line-file.ts'
import { openJournal } from '#journal/open-journal.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'

/** Writes all entries and attachments as NDJSON, to a file or to standard output. */
export function runExport(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'export',
      file: 'optional',
      async run({ at, file }) {
        await using journal = await openJournal({ at, road: theRoad, now: clock })
        if (file !== undefined) await writeLines(file, journal.exportLines())
        else for await (const line of journal.exportLines()) await io.stdout.write(`${line}\n`)
        return exit.ok
      },
    },
    args,
    io,
  )
}
