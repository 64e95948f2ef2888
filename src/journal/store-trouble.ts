import { StoreError } from './store-error.ts'

/** Something below the journal that keeps it from its work, with what to do. It is no mistake of the program's. */
export class StoreTrouble extends StoreError {
  readonly trouble: Trouble

  constructor(trouble: Trouble, detail: string, cause: unknown) {
    super(says[trouble](detail), { cause })
    this.trouble = trouble
  }
}

type Trouble = 'movedAway' | 'full' | 'readOnly' | 'diskFailed' | 'damaged' | 'cannotOpen' | 'busy' | 'unreachable'

const restore = 'restore the last backup (nilgrowth restore FILE --replace)'

const says: Readonly<Record<Trouble, (detail: string) => string>> = {
  movedAway: () =>
    'The record of this site was moved to another store and goes on there. Nothing was written: open the service on that one',
  full: () => 'The disk of the record is full. Nothing was written: free space on it and send it again',
  readOnly: () =>
    'The record cannot be written, since its file or its disk is read-only. Nothing was written: make it writable for this program and send it again',
  diskFailed: (detail) =>
    `The disk of the record failed (${detail}). What was sent is not kept: look after the disk; if it stays so, ${restore} on another one`,
  damaged: (detail) => `The record is damaged (${detail}). Stop the program, keep its file, and ${restore}`,
  cannotOpen: (detail) =>
    `The record cannot be opened (${detail}). See that its folder is there and can be written by this program; a record on a read-only disk must be copied first`,
  busy: () => 'Another program has locked the record for longer than is waited for. Nothing was written: send it again',
  unreachable: (detail) =>
    `The database of the record does not answer (${detail}). See that the server runs and send it again`,
}

/** SQLite's primary result codes, https://www.sqlite.org/rescode.html */
const sqliteTroubles: Readonly<Record<number, Trouble>> = {
  5: 'busy',
  6: 'busy',
  8: 'readOnly',
  10: 'diskFailed',
  11: 'damaged',
  13: 'full',
  14: 'cannotOpen',
  26: 'damaged',
}

/** PostgreSQL's error codes, its manual, appendix A. */
const postgresTroubles: Readonly<Record<string, Trouble>> = {
  NG001: 'movedAway',
  '53100': 'full',
  '25006': 'readOnly',
  '58030': 'diskFailed',
  XX001: 'damaged',
  XX002: 'damaged',
  '57P01': 'unreachable',
  '57P02': 'unreachable',
  '57P03': 'unreachable',
  '08006': 'unreachable',
  ECONNREFUSED: 'unreachable',
  ECONNRESET: 'unreachable',
  EPIPE: 'unreachable',
  ETIMEDOUT: 'unreachable',
  EHOSTUNREACH: 'unreachable',
}

/** What the driver says without a code. */
const connectionBroke = /^(?:Connection terminated|timeout exceeded when trying to connect|Client has encountered)/

/** The files of the system itself: a full disk while a backup is written, for one. */
const systemTroubles: Readonly<Record<string, Trouble>> = { ENOSPC: 'full', EROFS: 'readOnly', EIO: 'diskFailed' }

/** What is to be told of an error that comes from below the journal; undefined for one that is ours. */
export function troubleOf(error: unknown): StoreError | undefined {
  if (error instanceof StoreError) return error
  if (!(error instanceof Error)) return undefined
  const trouble = troubleNamed(error, 'code' in error ? String(error.code) : '')
  return trouble && new StoreTrouble(trouble, error.message, error)
}

function troubleNamed(error: Error, code: string): Trouble | undefined {
  // The low byte is the primary code; the rest says more of it.
  if (code === 'ERR_SQLITE_ERROR') {
    // The triggers share one code; what each says is ours.
    if (error.message.includes('goes on in another store')) return 'movedAway'
    return 'errcode' in error ? sqliteTroubles[Number(error.errcode) & 0xff] : undefined
  }
  if (connectionBroke.test(error.message)) return 'unreachable'
  return postgresTroubles[code] ?? systemTroubles[code]
}

/** Reads JSON that the journal wrote itself: when it does not read, the store is not what was written. */
export function writtenJson(text: string, what: string): unknown {
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new StoreTrouble('damaged', `${what} is not as it was written`, error)
  }
}
