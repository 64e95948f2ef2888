import { backupStore } from '#journal/backup/backup.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'
import { describeResult } from './verify.ts'

/** Copies the running store into a file, encrypted where a key is named, and verifies it by a restore. */
export function runBackup(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'backup',
      file: 'wanted',
      flags: ['key-file', 'passphrase-file'],
      async run({ at, file = '', secret }) {
        const result = await backupStore({ at, road: theRoad, now: clock, file, secret })
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
