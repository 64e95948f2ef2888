import { backupStore } from '#journal/backup.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'
import { describeResult } from './verify.ts'

/** Copies the running store into a file and verifies the copy. */
export function runBackup(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'backup',
      file: 'wanted',
      async run({ at, file = '' }) {
        const result = await backupStore({ at, road: theRoad, now: clock, file })
        if (result.kind === 'sound') {
          await io.stdout.write(`${file}: ${describeResult(result)}\n`)
          return exit.ok
        }
        await io.stderr.write(`no backup was made, as the store is not sound. ${describeResult(result)}\n`)
        return exit.failed
      },
    },
    args,
    io,
  )
}
