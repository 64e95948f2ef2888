import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Db, Tx } from './tables.ts'

/** Where the chain of a site goes on. `seq` is 0 and there is no `recordedAt` before the first entry. */
export interface ChainHead {
  readonly seq: number
  readonly hash: string
  readonly recordedAt?: Instant
}

/** Word between the processes that use one store: a hint to look, and no part of the record. */
export interface Elsewhere {
  /** Something was kept at this site. */
  tell(site: SiteId): void
  /** Calls back when another process has kept something; without a site when it is not known where. Gives what ends it. */
  hear(listener: (site: SiteId | undefined) => void): () => void
  /** Whether word would come. When not, one has to ask. */
  isHearing(): boolean
}

/** Whether a job was done here, or is being done by another process. */
export type Alone<T> = { readonly done: 'here'; readonly value: T } | { readonly done: 'elsewhere' }

/** Whether another server has what is acknowledged here. */
export interface Standby {
  /** `alone`: the engine has no standby. `hidden`: the database does not let us see. */
  readonly state: 'confirms' | 'missing' | 'hidden' | 'alone'
  readonly says: string
}

/** What differs between the two databases. Everything else is written once, over both. */
export interface Engine {
  readonly name: 'sqlite' | 'postgres'
  /** For transactions that write. Used by one at a time. */
  readonly writing: Db
  readonly reading: Db
  /** Reads the head of a site and keeps other processes from moving it until the transaction ends. */
  lockHead(tx: Tx, site: SiteId): Promise<ChainHead>
  /** Keeps all other writing processes out of the whole store until the transaction ends. */
  lockStore(tx: Tx): Promise<void>
  /** Keeps them from changing what goes with a site beside its record: who may sign in and who the patients are. */
  lockBeside(tx: Tx): Promise<void>
  /** Runs one writing transaction after the other. */
  transact<T>(work: (tx: Tx) => Promise<T>): Promise<T>
  /** Reads one moment of the store, whatever is written meanwhile. */
  snapshot<T>(work: (db: Db) => Promise<T>): Promise<T>
  readonly elsewhere: Elsewhere
  /** Does a job unless another process is doing the one of that name. */
  alone<T>(job: string, work: () => Promise<T>): Promise<Alone<T>>
  standby(): Promise<Standby>
  /** What this store is, by whatever address it was opened: two engines on one store give the same. */
  whichStore(): Promise<string>
  close(): Promise<void>
}
