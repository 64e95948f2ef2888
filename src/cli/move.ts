import { identityKeyFileOf } from '#journal/identities/cipher.ts'
import { moveSite } from '#journal/move/move-site.ts'
import { sealKeyFileOf } from '#journal/seal/seal-key.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'
import { describeResult } from './verify.ts'

/** Carries the record of a site into another store, from SQLite to PostgreSQL or back. */
export function runMove(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'move',
      file: 'none',
      flags: ['site', 'to-data', 'to-database'],
      async run({ at, site, to }) {
        if (to === undefined) {
          await io.stderr.write('--to-data or --to-database: wanted one of them, the place to move the record to\n')
          return exit.unusableInput
        }
        const outcome = await moveSite({ from: at, to, site, road: theRoad, now: clock })
        if (outcome.kind === 'notImported') {
          await io.stderr.write(`nothing was moved: line ${outcome.line}: ${outcome.says}\n`)
          return exit.failed
        }
        const { entries, attachments, accounts, tablets, head } = outcome
        await io.stdout.write(
          [
            `moved ${outcome.site}: ${entries} entries and ${attachments} attachments, ${accounts} accounts and ${tablets} tablets`,
            `both end at entry ${head.seq}, ${head.hash}`,
            `there ${describeResult(outcome.there)}`,
            `here the record of ${outcome.site} is closed; everybody signs in anew`,
            `seals go on with the same key when ${sealKeyFileOf(at)} is brought to ${sealKeyFileOf(to)}`,
            `who the patients are is read there when ${identityKeyFileOf(at)} is brought to ${identityKeyFileOf(to)}`,
            '',
          ].join('\n'),
        )
        return exit.ok
      },
    },
    args,
    io,
  )
}
