/** Keys of persons by which they sign in without a secret, and what was asked of a key and not yet answered. */
export const sqlitePasskeyTables: readonly string[] = Object.freeze([
  `CREATE TABLE passkey (
  site TEXT NOT NULL,
  id TEXT NOT NULL,
  person TEXT NOT NULL,
  public_key TEXT NOT NULL,
  counter INTEGER NOT NULL,
  host TEXT NOT NULL,
  name TEXT NOT NULL,
  kept_at TEXT NOT NULL,
  used_at TEXT,
  PRIMARY KEY (site, id)
) STRICT`,
  `CREATE TABLE challenge (
  site TEXT NOT NULL,
  digest TEXT NOT NULL,
  until TEXT NOT NULL,
  PRIMARY KEY (site, digest)
) STRICT`,
])

export const postgresPasskeyTables: readonly string[] = Object.freeze([
  `CREATE TABLE passkey (
  site text COLLATE "C" NOT NULL,
  id text COLLATE "C" NOT NULL,
  person text COLLATE "C" NOT NULL,
  public_key text COLLATE "C" NOT NULL,
  counter int8 NOT NULL,
  host text COLLATE "C" NOT NULL,
  name text COLLATE "C" NOT NULL,
  kept_at text COLLATE "C" NOT NULL,
  used_at text COLLATE "C",
  PRIMARY KEY (site, id)
)`,
  `CREATE TABLE challenge (
  site text COLLATE "C" NOT NULL,
  digest text COLLATE "C" NOT NULL,
  until text COLLATE "C" NOT NULL,
  PRIMARY KEY (site, digest)
)`,
])
