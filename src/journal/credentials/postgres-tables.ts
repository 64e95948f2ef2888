/** Who may sign in and who has, on PostgreSQL. Of the log of access lines are only ever added. */
export const postgresCredentialTables: readonly string[] = Object.freeze([
  `CREATE TABLE account (
  site text COLLATE "C" NOT NULL,
  person text COLLATE "C" NOT NULL,
  passphrase text COLLATE "C",
  pin text COLLATE "C",
  badge text COLLATE "C",
  code text COLLATE "C",
  code_until text COLLATE "C",
  failures int8 NOT NULL,
  locked_until text COLLATE "C",
  changed_at text COLLATE "C" NOT NULL,
  PRIMARY KEY (site, person),
  UNIQUE (site, badge)
)`,
  `CREATE TABLE device (
  site text COLLATE "C" NOT NULL,
  id text COLLATE "C" NOT NULL,
  token text COLLATE "C" NOT NULL,
  name text COLLATE "C" NOT NULL,
  enrolled_by text COLLATE "C" NOT NULL,
  enrolled_at text COLLATE "C" NOT NULL,
  ended_at text COLLATE "C",
  PRIMARY KEY (site, id),
  UNIQUE (token)
)`,
  `CREATE TABLE session (
  site text COLLATE "C" NOT NULL,
  token text COLLATE "C" NOT NULL,
  person text COLLATE "C" NOT NULL,
  device text COLLATE "C",
  how text COLLATE "C" NOT NULL,
  started_at text COLLATE "C" NOT NULL,
  seen_at text COLLATE "C" NOT NULL,
  ended_at text COLLATE "C",
  PRIMARY KEY (site, token)
)`,
  `CREATE INDEX session_device ON session (site, device, person, started_at)`,
  `CREATE TABLE confirmation (
  site text COLLATE "C" NOT NULL,
  entry text COLLATE "C" NOT NULL,
  person text COLLATE "C" NOT NULL,
  signed_as text COLLATE "C" NOT NULL,
  how text COLLATE "C" NOT NULL,
  at text COLLATE "C" NOT NULL,
  PRIMARY KEY (site, entry, person, signed_as)
)`,
  `CREATE TABLE access (
  site text COLLATE "C" NOT NULL,
  id text COLLATE "C" NOT NULL,
  at text COLLATE "C" NOT NULL,
  person text COLLATE "C",
  what text COLLATE "C" NOT NULL,
  about text COLLATE "C",
  PRIMARY KEY (site, id)
)`,
  `CREATE INDEX access_at ON access (site, at, id)`,
  `CREATE TRIGGER access_is_append_only
  BEFORE UPDATE OR DELETE OR TRUNCATE ON access FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
])
