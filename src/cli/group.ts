import type { GroupSite } from '#service/group/group-answer.ts'
import { compareSites, mostDaysCompared } from '#service/group/compare-sites.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'
import { rateText } from './rate-text.ts'

/** `group [--days N] [--json]`: all sites of a store side by side, by right of the store itself. */
export function runGroup(args: string[], io: CommandIo): Promise<number> {
  return onUnit(
    {
      usage: 'group [--days N] [--json]',
      options: { json: 'yes', days: 'text' },
      mostWords: 0,
      makes: false,
      run: show,
    },
    args,
    io,
  )
}

async function show({ journal, flags }: UnitCall, io: CommandIo): Promise<number> {
  const days = Number(textOf(flags['days']) ?? '365')
  if (!Number.isInteger(days) || days < 1 || days > mostDaysCompared) {
    const current = JSON.stringify(flags['days'])
    await io.stderr.write(
      `--days: wanted a whole number of days from 1 to ${mostDaysCompared}, current value is ${current}\n`,
    )
    return exit.unusableInput
  }
  const answer = await compareSites(journal, await journal.sites(), { now: clock(), days })
  if (flags['json'] === true) await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
  else for (const site of answer.sites) await io.stdout.write(`${cells(site).join('\t')}\n`)
  return exit.ok
}

function cells({ site, name, openRecalls, indicators, rate, preventionComplete }: GroupSite): readonly string[] {
  return [
    site,
    name ?? 'no unit open',
    `${openRecalls} open recalls`,
    `growth in ${indicators.grown} of ${indicators.read} loads with an indicator read`,
    ...rateText(rate),
    `prevention told in ${preventionComplete} of ${rate.operations}`,
  ]
}
