import { sealKey, sealKeyFileOf } from '#journal/seal/seal-key.ts'
import { sealText } from '#journal/seal/seal-text.ts'
import { openJournal } from '#journal/open-journal.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { clock, runOnJournal } from './journal-command.ts'

/** Seals the record up to now and writes the seal to standard output, to be printed or sent elsewhere. */
export function runSeal(args: string[], io: CommandIo): Promise<number> {
  return runOnJournal(
    {
      name: 'seal',
      file: 'none',
      flags: ['site', 'json'],
      async run({ at, site, json }) {
        const key = sealKey(process.env['NILGROWTH_SEAL_KEY_FILE'] || sealKeyFileOf(at))
        await using journal = await openJournal({ at, road: theRoad, now: clock })
        let sealed = 0
        for (const one of site === undefined ? await journal.sites() : [site]) {
          const seal = await journal.seal(one, key)
          if (seal === undefined) continue
          sealed += 1
          await io.stdout.write(json ? `${JSON.stringify(seal)}\n` : `${sealText(seal)}\n`)
        }
        if (sealed > 0) return exit.ok
        await io.stderr.write('seal: the record holds no entry, so there is nothing to seal\n')
        return exit.failed
      },
    },
    args,
    io,
  )
}
