import { readFileSync } from 'node:fs'
import { describeFault } from '#journal/verify/fault.ts'
import { type VerifyResult, verify } from '#journal/verify/verify.ts'
import { PublicKey, type Seal } from '#journal/seal/seal.ts'
import { readSeals } from '#journal/seal/seal-text.ts'
import { keyId } from '#journal/seal/sign-seal.ts'
import { verifySeal } from '#journal/seal/verify-seal.ts'
import type { Place } from '#journal/place.ts'
import { theRoad } from '#road/the-road.ts'
import { type CommandIo, exit } from './command.ts'
import { type JournalCall, runOnJournal } from './journal-command.ts'

/** Checks the chain, the attachments, the links and every fold. */
export function runVerify(args: string[], io: CommandIo): Promise<number> {
  const run = async ({ at, site, seal, key }: JournalCall) => {
    if (key !== undefined && seal === undefined) return await unusable(io, '--key: wanted with --seal FILE')
    const seals = seal === undefined ? [] : sealsOfFile(seal)
    if (typeof seals === 'string') return await unusable(io, `--seal: ${seals}`)
    if (key !== undefined && !PublicKey.safeParse(key).success) {
      return await unusable(
        io,
        `--key: wanted the public key as it was printed, 43 letters, current value is ${JSON.stringify(key)}`,
      )
    }
    const result = await verify({ at, road: theRoad, site })
    await (result.kind === 'sound' ? io.stdout : io.stderr).write(`${describeResult(result)}\n`)
    const checks = []
    for (const one of seals) checks.push(await checkOne(at, { seal: one, key }, io))
    return result.kind === 'sound' && checks.every(Boolean) ? exit.ok : exit.failed
  }
  return runOnJournal({ name: 'verify', file: 'none', flags: ['site', 'seal', 'key'], run }, args, io)
}

function sealsOfFile(file: string): readonly Seal[] | string {
  const read = readSeals(readFileSync(file, 'utf8'))
  return read.kind === 'seals' ? read.seals : `${file}: ${read.says}`
}

async function checkOne(
  at: Place,
  { seal, key }: { readonly seal: Seal; readonly key: string | undefined },
  io: CommandIo,
): Promise<boolean> {
  const check = await verifySeal(at, seal, key)
  const name = `seal of ${seal.sealedAt} over entries 1 to ${seal.seq} of site ${seal.site}`
  if (check.kind !== 'holds') {
    await io.stderr.write(`${check.kind === 'noProof' ? 'NO PROOF' : 'NOT AS SEALED'}: ${name}: ${check.says}\n`)
    return false
  }
  const { publicKey } = seal
  const trust = key === undefined ? `; it names the key ${publicKey} itself: compare it with the one you keep` : ''
  await io.stdout.write(`as sealed: ${name}, key ${keyId(publicKey)}${trust}\n`)
  return true
}

async function unusable(io: CommandIo, says: string): Promise<number> {
  await io.stderr.write(`${says}\n`)
  return exit.unusableInput
}

export function describeResult(result: VerifyResult): string {
  if (result.kind === 'faulty') return `NOT SOUND: ${describeFault(result.fault)}`
  const { sites, entries, subjects, links, attachments, seals, unreadable, derivedBy } = result
  const counts = `${entries} entries of ${sites} sites, ${subjects} subjects, ${links} links, ${attachments} attachments, ${seals} seals`
  const newer = unreadable === 0 ? '' : `; ${unreadable} entries of a newer version are kept unread`
  const outdated = derivedBy === 'thisVersion' ? '' : '; derived by another version, to be refolded when it is opened'
  return `sound: ${counts}${newer}${outdated}`
}
