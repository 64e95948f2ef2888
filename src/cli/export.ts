import { writeLines } from '#journal/line-file.ts'
import { openJournal } from '#journal/open-journal.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { runExportFhir } from './export-fhir.ts'
import { runExportTable } from './export-table.ts'
import { clock, runOnJournal } from './journal-command.ts'

/** Writes all entries and attachments as NDJSON, to a file or to standard output; `export table` and `export fhir` have files of their own. */
export function runExport(args: string[], io: CommandIo): Promise<number> {
  if (args[0] === 'fhir') return runExportFhir(args.slice(1), io)
  if (args[0] === 'table') return runExportTable(args.slice(1), io)
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
