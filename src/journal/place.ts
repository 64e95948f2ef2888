import { resolve } from 'node:path'

/** Where a journal is kept. */
export type Place =
  | { readonly kind: 'sqlite'; readonly file: string }
  | {
      readonly kind: 'postgres'
      readonly url: string
      /** The PostgreSQL schema that holds the tables; `nilgrowth` when it is not given. */
      readonly schema?: string
      /** Where a copy of the record is put before the tables are changed. */
      readonly upgradeFolder?: string
    }

/** The same folder that a unit on SQLite keeps its file in. */
export function upgradeFolderOf(at: Extract<Place, { kind: 'postgres' }>): string {
  return at.upgradeFolder ?? './data'
}

/** Reads the place from what was asked for, else from DATABASE_URL or NILGROWTH_DATA, else a file in this folder. */
export function placeFrom(
  environment: Readonly<Record<string, string | undefined>>,
  asked: { readonly data?: string | undefined; readonly database?: string | undefined } = {},
): Place {
  if (asked.database) return { kind: 'postgres', url: asked.database }
  if (asked.data) return { kind: 'sqlite', file: asked.data }
  const { DATABASE_URL: url, NILGROWTH_DATA: file } = environment
  // An empty variable is one that was not set.
  return url ? { kind: 'postgres', url } : { kind: 'sqlite', file: file || './data/unit.sqlite' }
}

/** A place for a person to read: without a password. */
export function saidPlace(at: Place): string {
  if (at.kind === 'sqlite') return resolve(at.file)
  const [, scheme = '', authority = '', path = '', rest = ''] =
    /^([a-z]+:\/\/)?([^/?#]*)([^?#]*)(.*)$/is.exec(at.url) ?? []
  // A password may hold what ends the servers: of such an address nothing is shown.
  if (`${path}${rest}`.includes('@')) return `${scheme}…`
  return `${scheme}${authority.slice(authority.lastIndexOf('@') + 1)}${path}`
}

/** Whether an address names a server and those that may take its place: `postgres://user@one:5432,two:5432/database`. */
export function severalServers(url: string): boolean {
  return serverAddresses(url).length > 1
}

/** An address for each server of one that may name several. */
export function serverAddresses(url: string): readonly string[] {
  const parts = /^(postgres(?:ql)?:\/\/(?:[^/?]*@)?)([^@/?]*)(.*)$/.exec(url)
  const [, begin = '', hosts = '', rest = ''] = parts ?? []
  if (!hosts.includes(',')) return [url]
  return hosts.split(',').map((host) => `${begin}${host}${rest}`)
}
