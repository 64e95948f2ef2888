/*
 * Who the patients are, apart from the record. What stands in `sealed` is encrypted by a key that is not in the store. Of
 * the log of access lines are only ever added.
 */

export const sqliteIdentityTables: readonly string[] = Object.freeze([
  `CREATE TABLE identity (
  site TEXT NOT NULL,
  case_id TEXT NOT NULL,
  sealed BLOB,
  kept_by TEXT,
  kept_at TEXT NOT NULL,
  PRIMARY KEY (site, case_id)
) STRICT`,
  `CREATE TABLE identity_access (
  site TEXT NOT NULL,
  id TEXT NOT NULL,
  at TEXT NOT NULL,
  person TEXT,
  act TEXT NOT NULL,
  case_id TEXT,
  why TEXT NOT NULL,
  PRIMARY KEY (site, id)
) STRICT`,
  `CREATE INDEX identity_access_case ON identity_access (site, case_id, id)`,
  `CREATE TRIGGER identity_access_is_never_updated BEFORE UPDATE ON identity_access
BEGIN SELECT RAISE(ABORT, 'the log of identities is append only: its lines are never updated'); END`,
  `CREATE TRIGGER identity_access_is_never_deleted BEFORE DELETE ON identity_access
BEGIN SELECT RAISE(ABORT, 'the log of identities is append only: its lines are never deleted'); END`,
])

export const postgresIdentityTables: readonly string[] = Object.freeze([
  `CREATE TABLE identity (
  site text COLLATE "C" NOT NULL,
  case_id text COLLATE "C" NOT NULL,
  sealed bytea,
  kept_by text COLLATE "C",
  kept_at text COLLATE "C" NOT NULL,
  PRIMARY KEY (site, case_id)
)`,
  `CREATE TABLE identity_access (
  site text COLLATE "C" NOT NULL,
  id text COLLATE "C" NOT NULL,
  at text COLLATE "C" NOT NULL,
  person text COLLATE "C",
  act text COLLATE "C" NOT NULL,
  case_id text COLLATE "C",
  why text COLLATE "C" NOT NULL,
  PRIMARY KEY (site, id)
)`,
  `CREATE INDEX identity_access_case ON identity_access (site, case_id, id)`,
  `CREATE TRIGGER identity_access_is_append_only
  BEFORE UPDATE OR DELETE OR TRUNCATE ON identity_access FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
])
