/** Who may sign in and who has, on SQLite. Of the log of access lines are only ever added. */
export const sqliteCredentialTables: readonly string[] = Object.freeze([
  `CREATE TABLE account (
  site TEXT NOT NULL,
  person TEXT NOT NULL,
  passphrase TEXT,
  pin TEXT,
  badge TEXT,
  code TEXT,
  code_until TEXT,
  failures INTEGER NOT NULL,
  locked_until TEXT,
  changed_at TEXT NOT NULL,
  PRIMARY KEY (site, person),
  UNIQUE (site, badge)
) STRICT`,
  `CREATE TABLE device (
  site TEXT NOT NULL,
  id TEXT NOT NULL,
  token TEXT NOT NULL,
  name TEXT NOT NULL,
  enrolled_by TEXT NOT NULL,
  enrolled_at TEXT NOT NULL,
  ended_at TEXT,
  PRIMARY KEY (site, id),
  UNIQUE (token)
) STRICT`,
  `CREATE TABLE session (
  site TEXT NOT NULL,
  token TEXT NOT NULL,
  person TEXT NOT NULL,
  device TEXT,
  how TEXT NOT NULL,
  started_at TEXT NOT NULL,
  seen_at TEXT NOT NULL,
  ended_at TEXT,
  PRIMARY KEY (site, token)
) STRICT`,
  `CREATE INDEX session_device ON session (site, device, person, started_at)`,
  `CREATE TABLE confirmation (
  site TEXT NOT NULL,
  entry TEXT NOT NULL,
  person TEXT NOT NULL,
  signed_as TEXT NOT NULL,
  how TEXT NOT NULL,
  at TEXT NOT NULL,
  PRIMARY KEY (site, entry, person, signed_as)
) STRICT`,
  `CREATE TABLE access (
  site TEXT NOT NULL,
  id TEXT NOT NULL,
  at TEXT NOT NULL,
  person TEXT,
  what TEXT NOT NULL,
  about TEXT,
  PRIMARY KEY (site, id)
) STRICT`,
  `CREATE INDEX access_at ON access (site, at, id)`,
  `CREATE TRIGGER access_is_never_updated BEFORE UPDATE ON access
BEGIN SELECT RAISE(ABORT, 'the log of access is append only: its lines are never updated'); END`,
  `CREATE TRIGGER access_is_never_deleted BEFORE DELETE ON access
BEGIN SELECT RAISE(ABORT, 'the log of access is append only: its lines are never deleted'); END`,
])
