import { describeFault } from '#journal/verify/fault.ts'
import { type VerifyResult, verify } from '#journal/verify/verify.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { type JournalCall, runOnJournal } from './journal-command.ts'

/** Checks the chain, the attachments, the links and every fold. */
export function runVerify(args: string[], io: CommandIo): Promise<number> {
  const run = async ({ at, site }: JournalCall) => {
    const result = await verify({ at, road: theRoad, site })
    await (result.kind === 'sound' ? io.stdout : io.stderr).write(`${describeResult(result)}\n`)
    return result.kind === 'sound' ? exit.ok : exit.failed
  }
  return runOnJournal({ name: 'verify', file: 'none', flags: ['site'], run }, args, io)
}

export function describeResult(result: VerifyResult): string {
  if (result.kind === 'faulty') return `NOT SOUND: ${describeFault(result.fault)}`
  const { sites, entries, subjects, links, attachments, unreadable, derivedBy } = result
  const counts = `${entries} entries of ${sites} sites, ${subjects} subjects, ${links} links, ${attachments} attachments`
  const newer = unreadable === 0 ? '' : `; ${unreadable} entries of a newer version are kept unread`
  const outdated = derivedBy === 'thisVersion' ? '' : '; derived by another version, to be refolded when it is opened'
  return `sound: ${counts}${newer}${outdated}`
}
