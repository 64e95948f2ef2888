import { isIP } from 'node:net'
import { z } from 'zod'
import { describeProblem, type Problem } from '#units/problem.ts'
import { SiteId } from '#road/entry.ts'
import { type Rotation, usualRotation } from '#journal/backup/rotation.ts'
import { severalServers, type Place } from '#journal/place.ts'
import { identityKeyFileOf } from '#journal/identities/cipher.ts'
import { sealKeyFileOf } from '#journal/seal/seal-key.ts'
import { type PrinterAddress, readPrinter, wantedPrinter } from './labels/send-to-printer.ts'
import { isThisComputer } from './this-computer.ts'

/** All that the environment may set, read once. */
export interface ServiceConfig {
  readonly host: string
  readonly port: number
  /** Where the record is kept: a SQLite file, or a PostgreSQL server. */
  readonly at: Place
  readonly site: SiteId
  readonly entriesLimitBytes: number
  readonly attachmentLimitBytes: number
  /** The most screens that are told of changes at once. */
  readonly streamsLimit: number
  /** The private key that signs the seals; made at first use. */
  readonly sealKeyFile: string
  /** The key of the patients' identities, where they are kept; made with the first. */
  readonly identityKeyFile: string
  /** Null when no folder was set: then the program makes no backup by itself. */
  readonly backups: BackupSchedule | null
  /** The sites that this one may compare; none where nothing was set. */
  readonly group: readonly SiteId[]
  /** Whether a standby is to have each entry before it is acknowledged: so where the address names several servers. */
  readonly standbyExpected: boolean
  /** `open`: whoever reaches the service records in any name. For a single computer that only its user reaches. */
  readonly signIn: 'required' | 'open'
  readonly rates: RateSettings
  /** Null when it is reached without TLS, or by a proxy that brings its own. */
  readonly tls: TlsFiles | null
  /** The addresses of proxies whose word is taken for who asks, and by TLS or not. */
  readonly trustedProxies: readonly string[]
  /** Whether webhooks may go to addresses of this network, and by http. */
  readonly webhooksPrivate: boolean
  readonly log: 'plain' | 'json'
  /** The label printer that takes ZPL on a raw port; null when none was set. */
  readonly labelPrinter: PrinterAddress | null
  /** Opens what the service counts of itself to a monitor elsewhere. */
  readonly metricsToken: string | null
  readonly machines: MachineSettings
  /** For how long it goes on answering after it was told to end, not ready any more. */
  readonly stopAfterSeconds: number
}

/** Where machines may write and print to; nothing of it unless it is set. */
export interface MachineSettings {
  /** The folder under which each machine may have one that is watched. */
  readonly folderRoot: string | null
  /** A file is taken once nothing was written to it for so long. */
  readonly quietSeconds: number
  /** The addresses of this computer on which printers may be heard. */
  readonly addresses: readonly string[]
  /** Where what is printed lies until its cycle is over. */
  readonly linesFolder: string
}

export interface TlsFiles {
  readonly certFile: string
  readonly keyFile: string
}

/** How much is answered in a minute; see `rates/rates.ts`. */
export interface RateSettings {
  /** Requests of one session. */
  readonly sessionPerMinute: number
  /** Requests from one address without a session. */
  readonly addressPerMinute: number
  /** Wrong passphrases, PINs and codes of one tablet or address. */
  readonly triesPerMinute: number
}

export interface BackupSchedule {
  readonly folder: string
  readonly keyFile: string
  readonly everyHours: number
  readonly rotation: Rotation
}

export const defaultPort = 4640

const mebibyte = 1024 * 1024

const Environment = z.object({
  HOST: z.string().min(1).default('127.0.0.1'),
  PORT: wholeNumber(0, 65_535).default(defaultPort),
  NILGROWTH_DATA: z.string().min(1).default('./data/unit.sqlite'),
  NILGROWTH_SITE: SiteId.default('unit' as SiteId),
  DATABASE_URL: z
    .string()
    .regex(/^postgres(?:ql)?:\/\/\S+$/, 'an address such as postgres://user@host/database')
    .optional(),
  NILGROWTH_ENTRIES_LIMIT: wholeNumber(1024, 256 * mebibyte).default(4 * mebibyte),
  NILGROWTH_ATTACHMENT_LIMIT: wholeNumber(1024, 256 * mebibyte).default(16 * mebibyte),
  NILGROWTH_STREAMS_LIMIT: wholeNumber(1, 10_000).default(200),
  NILGROWTH_SEAL_KEY_FILE: z.string().min(1).optional(),
  NILGROWTH_IDENTITY_KEY_FILE: z.string().min(1).optional(),
  NILGROWTH_BACKUP_FOLDER: z.string().min(1).optional(),
  NILGROWTH_BACKUP_KEY_FILE: z.string().min(1).optional(),
  NILGROWTH_BACKUP_EVERY: wholeNumber(1, 168).default(24),
  NILGROWTH_BACKUP_KEEP: z
    .string()
    .regex(/^\d{1,3},\d{1,3},\d{1,3}$/, 'three whole numbers of days, weeks and months, such as 7,5,12')
    .optional(),
  NILGROWTH_GROUP: z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(SiteId).min(1).max(1000))
    .optional(),
  NILGROWTH_STANDBY: z.enum(['expected', 'notExpected']).optional(),
  NILGROWTH_SIGN_IN: z.enum(['required', 'open']).default('required'),
  NILGROWTH_TLS_CERT_FILE: z.string().min(1).optional(),
  NILGROWTH_TLS_KEY_FILE: z.string().min(1).optional(),
  NILGROWTH_PLAIN_HTTP: z.enum(['refused', 'allowed']).default('refused'),
  NILGROWTH_TRUSTED_PROXY: z
    .string()
    .transform((text) => text.split(',').map((each) => each.trim()))
    .refine((each) => each.every(isAddressOrNetwork), 'addresses or networks with commas between, such as 10.0.0.5')
    .default([]),
  NILGROWTH_WEBHOOKS_PRIVATE: z.enum(['allowed', 'refused']).default('refused'),
  NILGROWTH_LOG: z.enum(['plain', 'json']).default('plain'),
  NILGROWTH_METRICS_TOKEN: z
    .string()
    .regex(/^[\w.~+/-]{24,200}$/, '24 to 200 letters, digits or ._~+/-')
    .optional(),
  NILGROWTH_MACHINE_FOLDERS: z.string().min(1).optional(),
  NILGROWTH_MACHINE_QUIET: wholeNumber(2, 7200).default(60),
  NILGROWTH_MACHINE_LISTEN: z
    .string()
    .transform((text) => text.split(',').map((each) => each.trim()))
    .refine(
      (each) => each.every((one) => isIP(one) !== 0),
      'addresses of this computer with commas between, such as 192.168.1.5',
    )
    .default([]),
  NILGROWTH_MACHINE_LINES: z.string().min(1).optional(),
  NILGROWTH_LABEL_PRINTER: z
    .string()
    .transform((text, check) => {
      const address = readPrinter(text)
      if (address === undefined) check.addIssue({ code: 'custom', message: wantedPrinter })
      return address ?? z.NEVER
    })
    .optional(),
  NILGROWTH_STOP_AFTER: wholeNumber(0, 120).default(0),
  NILGROWTH_RATE_SESSION: wholeNumber(1, 10_000_000).default(1200),
  NILGROWTH_RATE_ADDRESS: wholeNumber(1, 10_000_000).default(3000),
  NILGROWTH_RATE_TRIES: wholeNumber(1, 10_000_000).default(60),
})

type Settings = z.infer<typeof Environment>

export type ReadConfig =
  | { readonly kind: 'config'; readonly config: ServiceConfig }
  /** One line that says which variable, what was wanted and what came. */
  | { readonly kind: 'unusable'; readonly says: string }

/** Reads the environment. An empty variable counts as one that is not set. */
export function readConfig(environment: Readonly<Record<string, string | undefined>>): ReadConfig {
  const set = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== undefined && value !== ''))
  const parsed = Environment.safeParse(set)
  if (!parsed.success) return { kind: 'unusable', says: parsed.error.issues.map((issue) => say(issue, set)).join('; ') }
  const { HOST, PORT, NILGROWTH_DATA, NILGROWTH_SITE, DATABASE_URL, NILGROWTH_SIGN_IN } = parsed.data
  const at: Place =
    DATABASE_URL === undefined ? { kind: 'sqlite', file: NILGROWTH_DATA } : { kind: 'postgres', url: DATABASE_URL }
  const backups = backupsOf(parsed.data)
  // Never in the clear: a backup is the copy of the record that lies where nobody watches.
  if (backups === 'noKey') return { kind: 'unusable', says: describeProblem(keyWanted) }
  const proxies = parsed.data.NILGROWTH_TRUSTED_PROXY
  if (NILGROWTH_SIGN_IN === 'open' && (!isThisComputer(HOST) || proxies.length > 0)) {
    return { kind: 'unusable', says: describeProblem(openToOthers(HOST)) }
  }
  const tls = tlsOf(parsed.data)
  if (tls === 'half') return { kind: 'unusable', says: describeProblem(bothWanted(parsed.data)) }
  const inTheClear = tls === null && proxies.length === 0 && !isThisComputer(HOST)
  if (inTheClear && parsed.data.NILGROWTH_PLAIN_HTTP === 'refused')
    return { kind: 'unusable', says: describeProblem(tlsWanted(HOST)) }
  return {
    kind: 'config',
    config: {
      host: HOST,
      port: PORT,
      at,
      site: NILGROWTH_SITE,
      entriesLimitBytes: parsed.data.NILGROWTH_ENTRIES_LIMIT,
      attachmentLimitBytes: parsed.data.NILGROWTH_ATTACHMENT_LIMIT,
      streamsLimit: parsed.data.NILGROWTH_STREAMS_LIMIT,
      sealKeyFile: parsed.data.NILGROWTH_SEAL_KEY_FILE ?? sealKeyFileOf(at),
      identityKeyFile: parsed.data.NILGROWTH_IDENTITY_KEY_FILE ?? identityKeyFileOf(at),
      backups,
      group: parsed.data.NILGROWTH_GROUP ?? [],
      standbyExpected: isStandbyExpected(parsed.data),
      signIn: NILGROWTH_SIGN_IN,
      webhooksPrivate: parsed.data.NILGROWTH_WEBHOOKS_PRIVATE === 'allowed',
      log: parsed.data.NILGROWTH_LOG,
      labelPrinter: parsed.data.NILGROWTH_LABEL_PRINTER ?? null,
      metricsToken: parsed.data.NILGROWTH_METRICS_TOKEN ?? null,
      machines: machinesOf(parsed.data, at),
      stopAfterSeconds: parsed.data.NILGROWTH_STOP_AFTER,
      tls,
      trustedProxies: proxies,
      rates: {
        sessionPerMinute: parsed.data.NILGROWTH_RATE_SESSION,
        addressPerMinute: parsed.data.NILGROWTH_RATE_ADDRESS,
        triesPerMinute: parsed.data.NILGROWTH_RATE_TRIES,
      },
    },
  }
}

function machinesOf(set: Settings, at: Place): MachineSettings {
  return {
    folderRoot: set.NILGROWTH_MACHINE_FOLDERS ?? null,
    quietSeconds: set.NILGROWTH_MACHINE_QUIET,
    addresses: set.NILGROWTH_MACHINE_LISTEN,
    linesFolder: set.NILGROWTH_MACHINE_LINES ?? linesFolderOf(at),
  }
}

/** Beside the record, where it is a file. */
function linesFolderOf(at: Place): string {
  return at.kind === 'sqlite' ? `${at.file}.machine-lines` : './data/machine-lines'
}

const keyWanted: Problem = {
  field: 'NILGROWTH_BACKUP_KEY_FILE',
  wanted: 'a file for the key of the backups, beside NILGROWTH_BACKUP_FOLDER; it is made when it is not there',
  current: 'not set',
}

function backupsOf(set: Settings): BackupSchedule | null | 'noKey' {
  const { NILGROWTH_BACKUP_FOLDER: folder, NILGROWTH_BACKUP_KEY_FILE: keyFile } = set
  if (folder === undefined) return null
  if (keyFile === undefined) return 'noKey'
  const [daily, weekly, monthly] = (set.NILGROWTH_BACKUP_KEEP ?? '').split(',').map(Number)
  const rotation =
    daily === undefined || weekly === undefined || monthly === undefined ? usualRotation : { daily, weekly, monthly }
  return { folder, keyFile, everyHours: set.NILGROWTH_BACKUP_EVERY, rotation }
}

function tlsOf({ NILGROWTH_TLS_CERT_FILE: certFile, NILGROWTH_TLS_KEY_FILE: keyFile }: Settings) {
  if (certFile === undefined && keyFile === undefined) return null
  return certFile === undefined || keyFile === undefined ? 'half' : { certFile, keyFile }
}

function bothWanted({ NILGROWTH_TLS_CERT_FILE }: Settings): Problem {
  const [there, missing] = NILGROWTH_TLS_CERT_FILE === undefined ? ['KEY', 'CERT'] : ['CERT', 'KEY']
  return {
    field: `NILGROWTH_TLS_${missing}_FILE`,
    wanted: `a file beside NILGROWTH_TLS_${there}_FILE`,
    current: 'not set',
  }
}

/** Whoever is on the same network could read passphrases along, and record in the name of others. */
function tlsWanted(host: string): Problem {
  const wanted =
    'TLS where other computers reach the service: NILGROWTH_TLS_CERT_FILE and NILGROWTH_TLS_KEY_FILE, or NILGROWTH_TRUSTED_PROXY ' +
    'for a proxy that brings it; NILGROWTH_PLAIN_HTTP=allowed goes on without, on a network that nobody else is on'
  return { field: 'HOST', wanted, current: `${JSON.stringify(host)} without TLS` }
}

function isAddressOrNetwork(text: string): boolean {
  const [address = '', bits, ...rest] = text.split('/')
  const most = isIP(address) === 6 ? 128 : 32
  return (
    isIP(address) !== 0 && rest.length === 0 && (bits === undefined || (/^\d{1,3}$/.test(bits) && Number(bits) <= most))
  )
}

function isStandbyExpected({ DATABASE_URL: url, NILGROWTH_STANDBY: set }: Settings): boolean {
  if (url === undefined) return false
  return set === undefined ? severalServers(url) : set === 'expected'
}

/** Without sign-in anybody who reaches the service could record in any name. */
function openToOthers(host: string): Problem {
  const wanted = `"required" where other computers reach the service (HOST is ${JSON.stringify(host)}, or a proxy is trusted)`
  return { field: 'NILGROWTH_SIGN_IN', wanted, current: '"open"' }
}

/** A whole number written as text: `Number` alone would take "" and "0x10". */
function wholeNumber(least: number, most: number) {
  const wanted = `a whole number from ${least} to ${most}`
  return z
    .string()
    .regex(/^\d{1,12}$/, wanted)
    .transform(Number)
    .refine((value) => value >= least && value <= most, wanted)
}

const wantedSites: Readonly<Record<string, string>> = {
  NILGROWTH_SITE: '1 to 40 small letters, digits or "-"',
  NILGROWTH_GROUP: 'the names of sites with "," between them, such as north,south',
}

function say(issue: z.core.$ZodIssue, environment: Record<string, string | undefined>): string {
  const field = String(issue.path[0])
  const secret = field === 'DATABASE_URL' || field === 'NILGROWTH_METRICS_TOKEN'
  const problem: Problem = {
    field,
    wanted: wantedSites[field] ?? issue.message,
    // An address may hold a password, which belongs in no log.
    current: secret ? 'something else' : JSON.stringify(environment[field]),
  }
  return describeProblem(problem)
}
