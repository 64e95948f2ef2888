import { parseArgs } from 'node:util'
import { type Place, placeFrom } from '#journal/place.ts'
import { keyFileOf, passphraseOf, type Secret } from '#journal/encrypted/secret.ts'
import { StoreError } from '#journal/store-error.ts'
import { troubleOf } from '#journal/store-trouble.ts'
import { type SiteId, SiteId as SiteIdSchema } from '#road/entry.ts'
import { type Instant, instant } from '#road/instant.ts'
import { type CommandIo, exit } from './command.ts'

/** What the commands on the journal are told. */
export interface JournalCall {
  readonly at: Place
  readonly file: string | undefined
  readonly site: SiteId | undefined
  readonly replace: boolean
  readonly json: boolean
  /** A file with seals, and the public key to check them with. */
  readonly seal: string | undefined
  readonly key: string | undefined
  /** Where to move the record; undefined when no one place was named. */
  readonly to: Place | undefined
  /** What encrypts a backup, read from the file that was named. */
  readonly secret: Secret | undefined
}

type Flag = keyof typeof flagUsage

const flagUsage = {
  site: '--site SITE',
  replace: '--replace',
  json: '--json',
  seal: '--seal FILE',
  key: '--key PUBLIC-KEY',
  'to-data': '--to-data FILE',
  'to-database': '--to-database URL',
  'key-file': '--key-file FILE',
  'passphrase-file': '--passphrase-file FILE',
} as const

interface JournalCommand {
  readonly name: string
  /** Whether a FILE is named after the command. */
  readonly file: 'wanted' | 'optional' | 'none'
  readonly flags?: readonly Flag[]
  readonly run: (call: JournalCall, io: CommandIo) => Promise<number>
}

const places = ['data', 'database'] as const

/** Reads the arguments of a command on the journal and runs it; what cannot be done is told in one line. */
export async function runOnJournal(command: JournalCommand, args: string[], io: CommandIo): Promise<number> {
  try {
    const call = readCall(command, args)
    if (typeof call === 'string') {
      await io.stderr.write(`${call}\n${usage(command)}\n`)
      return exit.unusableInput
    }
    return await command.run(call, io)
  } catch (error) {
    const told = troubleOf(error) ?? error
    if (!isExpected(told)) throw error
    await io.stderr.write(`${command.name}: ${told.message}\n`)
    return exit.failed
  }
}

/** The clock of the machine, for stores that a command opens. */
export function clock(): Instant {
  return instant(Date.now())
}

function readCall({ file, flags = [] }: JournalCommand, args: string[]): JournalCall | string {
  const allowed = [...places, ...flags]
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        data: { type: 'string' },
        database: { type: 'string' },
        site: { type: 'string' },
        replace: { type: 'boolean' },
        json: { type: 'boolean' },
        seal: { type: 'string' },
        key: { type: 'string' },
        'to-data': { type: 'string' },
        'to-database': { type: 'string' },
        'key-file': { type: 'string' },
        'passphrase-file': { type: 'string' },
      },
    })
    const unwanted = Object.keys(values).find((name) => !allowed.some((known) => known === name))
    if (unwanted !== undefined) return `--${unwanted}: wanted no such option`
    if (file === 'wanted' && positionals.length !== 1)
      return `FILE: wanted one file, current number is ${positionals.length}`
    if (positionals.length > (file === 'none' ? 0 : 1)) return `${positionals.join(' ')}: wanted nothing more`
    const site = values.site === undefined ? undefined : SiteIdSchema.safeParse(values.site)
    if (site?.success === false) return `--site: wanted a site, current value is ${JSON.stringify(values.site)}`
    const at = placeFrom(process.env, values)
    const { replace = false, json = false, seal, key } = values
    const named = { to: otherPlaceOf(values), secret: secretOf(values) }
    return { at, file: positionals[0], site: site?.data, replace, json, seal, key, ...named }
  } catch (error) {
    if (error instanceof TypeError) return error.message
    throw error
  }
}

function otherPlaceOf(named: {
  readonly 'to-data'?: string | undefined
  readonly 'to-database'?: string | undefined
}): Place | undefined {
  const { 'to-data': file, 'to-database': url } = named
  if (url) return file ? undefined : { kind: 'postgres', url }
  return file ? { kind: 'sqlite', file } : undefined
}

function secretOf(files: {
  readonly 'key-file'?: string | undefined
  readonly 'passphrase-file'?: string | undefined
}): Secret | undefined {
  const { 'key-file': keyFile, 'passphrase-file': passphraseFile } = files
  if (keyFile !== undefined) return keyFileOf(keyFile)
  return passphraseFile === undefined ? undefined : passphraseOf(passphraseFile)
}

function usage({ name, file, flags = [] }: JournalCommand): string {
  const parts = { wanted: ' FILE', optional: ' [FILE]', none: '' }
  const extra = flags.map((flag) => ` [${flagUsage[flag]}]`).join('')
  return `Usage: nilgrowth ${name}${parts[file]} [--data FILE | --database URL]${extra}`
}

/** Mistakes of the caller and failures of the system, such as a file that cannot be opened; ours go on upwards. */
function isExpected(error: unknown): error is Error {
  return (
    error instanceof StoreError ||
    error instanceof RangeError ||
    (error instanceof Error && 'code' in error && error.code !== undefined)
  )
}
