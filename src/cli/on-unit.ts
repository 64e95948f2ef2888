import { existsSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { openJournal } from '#journal/open-journal.ts'
import { type Place, placeFrom } from '#journal/place.ts'
import { StoreError } from '#journal/store-error.ts'
import { troubleOf } from '#journal/store-trouble.ts'
import { SiteId } from '#road/entry.ts'
import { theRoad } from '#road/the-road.ts'
import { computeHere } from '#service/compute/compute-here.ts'
import type { RecordContext } from '#service/context.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'

/** What a command on a unit's record is told. */
export interface UnitCall extends RecordContext {
  readonly words: readonly string[]
  readonly flags: Readonly<Record<string, string | boolean | undefined>>
}

interface UnitCommand {
  /** The command as help shows it: `known SUBJECT`. */
  readonly usage: string
  /** Its own options; where the record is may always be said. */
  readonly options?: Readonly<Record<string, 'text' | 'yes'>>
  readonly mostWords: number
  /** Whether a record is made where there is none. */
  readonly makes: boolean
  readonly run: (call: UnitCall, io: CommandIo) => Promise<number>
}

/** Opens the record that the arguments or the environment name and runs a command on it. */
export async function onUnit(command: UnitCommand, args: readonly string[], io: CommandIo): Promise<number> {
  const read = readArguments(command, args)
  if (typeof read === 'string') {
    await io.stderr.write(`${read}\nUsage: nilgrowth ${command.usage} [--data FILE | --database URL] [--site SITE]\n`)
    return exit.unusableInput
  }
  const { at, site, words, flags } = read
  const missing = command.makes ? undefined : noRecordAt(at)
  if (missing !== undefined) {
    await io.stderr.write(`${missing}\n`)
    return exit.failed
  }
  try {
    await using journal = await openJournal({ at, road: theRoad, now: clock })
    return await command.run({ journal, reader: journal.read(site), site, compute: computeHere, words, flags }, io)
  } catch (error) {
    const told = troubleOf(error) ?? error
    if (!isExpected(told)) throw error
    await io.stderr.write(`${told.message}\n`)
    return exit.failed
  }
}

/** What is said of a place where no record is; undefined where there may be one. To open it would make an empty one. */
export function noRecordAt(at: Place): string | undefined {
  if (at.kind !== 'sqlite' || existsSync(at.file)) return undefined
  return `--data: wanted the file of a record, current value is ${JSON.stringify(at.file)}, which is not there`
}

interface Arguments {
  readonly at: Place
  readonly site: SiteId
  readonly words: readonly string[]
  readonly flags: UnitCall['flags']
}

const everywhere = { data: { type: 'string' }, database: { type: 'string' }, site: { type: 'string' } } as const

function readArguments({ options = {}, mostWords }: UnitCommand, args: readonly string[]): Arguments | string {
  const own = Object.entries(options).map(([name, kind]) => [name, { type: typeOf(kind) }] as const)
  let parsed: { values: Record<string, string | boolean | undefined>; positionals: string[] }
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { ...everywhere, ...Object.fromEntries(own) },
    })
  } catch (error) {
    if (error instanceof TypeError) return `arguments: ${error.message}`
    throw error
  }
  const { values, positionals } = parsed
  if (positionals.length > mostWords)
    return `arguments: wanted at most ${mostWords}, current number is ${positionals.length}`
  const site = SiteId.safeParse(values['site'] ?? (process.env['NILGROWTH_SITE'] || 'unit'))
  if (!site.success) return `--site: wanted a site, current value is ${JSON.stringify(values['site'])}`
  const at = placeFrom(process.env, { data: textOf(values['data']), database: textOf(values['database']) })
  return { at, site: site.data, words: positionals, flags: values }
}

function typeOf(kind: 'text' | 'yes'): 'string' | 'boolean' {
  return kind === 'text' ? 'string' : 'boolean'
}

export function textOf(flag: string | boolean | undefined): string | undefined {
  return typeof flag === 'string' ? flag : undefined
}

/** Failures of the system, such as a file that cannot be opened; mistakes of ours go on upwards. */
function isExpected(error: unknown): error is Error {
  return (
    error instanceof StoreError || (error instanceof Error && 'code' in error && error.code !== 'ERR_INVALID_ARG_TYPE')
  )
}
