import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import type { Engine } from '../engine.ts'
import { siteLines } from '../export.ts'
import { carryIdentities } from '../identities/lines.ts'
import { readHead, selectHeads } from '../head.ts'
import { importLines } from '../import.ts'
import type { Head } from '../journal.ts'
import { openEngine } from '../open-journal.ts'
import type { ImportOutcome } from '../outcome.ts'
import { type Place, saidPlace } from '../place.ts'
import { refoldIfOutdated } from '../refold.ts'
import { StoreError } from '../store-error.ts'
import type { Tx } from '../tables.ts'
import { describeFault } from '../verify/fault.ts'
import { type VerifyResult, verify } from '../verify/verify.ts'
import { type CarriedCredentials, carryCredentials } from './carry-credentials.ts'
import { clearMoved, readMoved, writeMoved } from './moved.ts'

export interface MoveJob {
  readonly from: Place
  readonly to: Place
  /** May be left out where the store has one site. */
  readonly site?: SiteId | undefined
  readonly road: Road
  readonly now: () => Instant
}

export type MoveOutcome =
  | ({
      readonly kind: 'moved'
      readonly site: SiteId
      readonly head: Head
      readonly entries: number
      readonly attachments: number
      /** What was found on both sides afterwards. */
      readonly there: Extract<VerifyResult, { kind: 'sound' }>
    } & CarriedCredentials)
  | Extract<ImportOutcome, { kind: 'notImported' }>

/**
 * Carries the record of one site into another store: entries, attachments and seals with their hashes, and who may sign in.
 * Both sides are verified. The other store gets all of it or nothing; here the site is closed afterwards. A move that
 * was cut short between the two is finished by the same call.
 */
export async function moveSite(job: MoveJob): Promise<MoveOutcome> {
  const { from, to, road, now } = job
  const source = await openEngine(await existing(from))
  try {
    const site = await theSite(source, job.site)
    await wantSound(from, { site, road }, 'Nothing was moved: the record is not sound')
    const target = await openEngine(to)
    try {
      // One store has many addresses, and each of the two would wait for the other to give it free.
      if ((await source.whichStore()) === (await target.whichStore()))
        throw new StoreError(`Cannot move a record to where it is: ${saidPlace(to)} is this store. Name another place`)
      await refoldIfOutdated(target, road)
      return await source.transact(async (tx) => {
        const outcome = await carry({ source, target, tx, job, site })
        if (outcome.kind === 'notImported') return outcome
        const there = await wantSound(
          to,
          { site, road },
          'The record was copied and is not sound there; it goes on here',
        )
        await writeMoved(tx, site, { at: now(), goesOn: saidPlace(to) })
        return { ...outcome, there }
      })
    } finally {
      await target.close()
    }
  } finally {
    await source.close()
  }
}

async function existing(from: Place): Promise<Place> {
  // Opened as it is first: this refuses to make an empty store where there is none.
  await (await openEngine(from, 'asItIs')).close()
  return from
}

async function theSite(source: Engine, asked: SiteId | undefined): Promise<SiteId> {
  const sites = (await selectHeads(source.reading)).map(({ site }) => site)
  const [only] = sites
  if (only === undefined) throw new StoreError('Nothing was moved: the store holds no entry')
  if (asked !== undefined && sites.includes(asked)) return asked
  if (asked === undefined && sites.length === 1) return only
  const current = asked === undefined ? 'none is named' : `current site is ${asked}`
  throw new StoreError(`--site: wanted one of ${sites.join(', ')}; ${current}`)
}

interface Carrying {
  readonly source: Engine
  readonly target: Engine
  /** Of the source. */
  readonly tx: Tx
  readonly job: MoveJob
  readonly site: SiteId
}

type Carried = Omit<Extract<MoveOutcome, { kind: 'moved' }>, 'there'>

/** Everything from one store into the other, while nobody can add to the one and the other takes it in one transaction. */
async function carry(carrying: Carrying): Promise<Carried | Extract<MoveOutcome, { kind: 'notImported' }>> {
  const { source, target, tx, job, site } = carrying
  await source.lockStore(tx)
  await source.lockBeside(tx)
  const before = await readMoved(tx, site)
  if (before !== undefined) {
    throw new StoreError(`Nothing was moved: the record of ${site} was moved to ${before.goesOn} at ${before.at}`)
  }
  const head = await readHead(tx, site)
  if (head === undefined) throw new StoreError(`Nothing was moved: ${site} has no entry`)
  let people: CarriedCredentials = { accounts: 0, tablets: 0 }
  const { outcome } = await importLines(target, {
    road: job.road,
    lines: siteLines(tx, site),
    async before(into) {
      await wantRoom(carrying, into)
      await clearMoved(into, site)
    },
    async after(into) {
      people = await carryCredentials(tx, into, site)
      await carryIdentities(tx, into, site)
    },
  })
  if (outcome.kind === 'notImported') return outcome
  const { entries, attachments } = outcome
  return { kind: 'moved', site, head, entries, attachments, ...people }
}

/** The other store has nothing of this site, or the beginning of this very record: from a move that was cut short or an earlier stay. */
async function wantRoom({ tx, site }: Carrying, into: Tx): Promise<void> {
  const there = await readHead(into, site)
  if (there === undefined) return
  const own = await tx
    .selectFrom('entry')
    .select('hash')
    .where('site', '=', site)
    .where('seq', '=', there.seq)
    .executeTakeFirst()
  if (own?.hash === there.hash) return
  throw new StoreError(
    `Nothing was moved: the other store holds ${there.seq} entries of ${site} that are not the beginning of this record`,
  )
}

async function wantSound(
  at: Place,
  { site, road }: { readonly site: SiteId; readonly road: Road },
  says: string,
): Promise<Extract<VerifyResult, { kind: 'sound' }>> {
  const result = await verify({ at, road, site })
  if (result.kind === 'sound') return result
  throw new StoreError(`${says}: ${describeFault(result.fault)}`)
}
