import { openJournal } from '#journal/open-journal.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'

/** Makes all that is derived anew from the entries. */
export function runRefold(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'refold',
      file: 'none',
      async run({ at }) {
        await using journal = await openJournal({ at, road: theRoad, now: clock })
        await io.stdout.write(`refolded ${await journal.refold()} entries\n`)
        return exit.ok
      },
    },
    args,
    io,
  )
}
