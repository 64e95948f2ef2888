import { restoreStore } from '#journal/restore.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'

/** Makes the store from a backup. */
export function runRestore(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'restore',
      file: 'wanted',
      flags: ['replace', 'key-file', 'passphrase-file'],
      async run({ at, file = '', replace, secret }) {
        const outcome = await restoreStore({ at, road: theRoad, now: clock, file, replace, secret })
        switch (outcome.kind) {
          case 'restored': {
            const aside = outcome.aside === undefined ? '' : `; what was there is kept as ${outcome.aside}`
            const counts = `${outcome.entries} entries and ${outcome.attachments} attachments`
            await io.stdout.write(`restored ${counts}${aside}\n`)
            for (const { site, goes_on: goesOn } of outcome.closed)
              await io.stdout.write(`the record of ${site} goes on at ${goesOn} and stays closed here\n`)
            return exit.ok
          }
          case 'notEmpty':
            await io.stderr.write('not restored: the store holds entries; with --replace they are kept aside\n')
            return exit.failed
          case 'notImported':
            await io.stderr.write(`not restored: line ${outcome.line}: ${outcome.says}\n`)
            return exit.failed
        }
      },
    },
    args,
    io,
  )
}
