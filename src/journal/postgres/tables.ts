/**
 * The tables on PostgreSQL. Text is compared byte by byte (collation C), so that order is the same as on SQLite and
 * time order is text order whatever the language of the server.
 * The triggers make the database itself refuse a change of the record.
 */
export const postgresTables = `
CREATE TABLE IF NOT EXISTS meta (name text PRIMARY KEY, value text NOT NULL);

CREATE TABLE IF NOT EXISTS entry (
  site text COLLATE "C" NOT NULL,
  seq int8 NOT NULL CHECK (seq >= 1),
  id text COLLATE "C" NOT NULL UNIQUE,
  kind text COLLATE "C" NOT NULL,
  happened_at text COLLATE "C" NOT NULL,
  recorded_at text COLLATE "C" NOT NULL,
  corrects text COLLATE "C" REFERENCES entry (id),
  text text NOT NULL,
  hash text NOT NULL,
  PRIMARY KEY (site, seq)
);
CREATE INDEX IF NOT EXISTS entry_corrects ON entry (corrects) WHERE corrects IS NOT NULL;

CREATE TABLE IF NOT EXISTS attachment (
  digest text COLLATE "C" PRIMARY KEY,
  media_type text NOT NULL,
  bytes bytea NOT NULL
);

CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'the journal is append only: % of % is refused', TG_OP, TG_TABLE_NAME;
END $$;
CREATE OR REPLACE TRIGGER entry_is_append_only
  BEFORE UPDATE OR DELETE OR TRUNCATE ON entry FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE OR REPLACE TRIGGER attachment_is_append_only
  BEFORE UPDATE OR DELETE OR TRUNCATE ON attachment FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TABLE IF NOT EXISTS head (
  site text COLLATE "C" PRIMARY KEY,
  seq int8 NOT NULL,
  hash text NOT NULL,
  recorded_at text COLLATE "C" NOT NULL
);

CREATE TABLE IF NOT EXISTS about (
  site text COLLATE "C" NOT NULL,
  subject text COLLATE "C" NOT NULL,
  happened_at text COLLATE "C" NOT NULL,
  id text COLLATE "C" NOT NULL,
  seq int8 NOT NULL,
  PRIMARY KEY (site, subject, happened_at, id)
);
CREATE INDEX IF NOT EXISTS about_entry ON about (id);

CREATE TABLE IF NOT EXISTS known (
  site text COLLATE "C" NOT NULL,
  subject text COLLATE "C" NOT NULL,
  kind text COLLATE "C" NOT NULL,
  standing text COLLATE "C" NOT NULL,
  since text COLLATE "C" NOT NULL,
  state text NOT NULL,
  folded_at text COLLATE "C" NOT NULL,
  folded_id text COLLATE "C" NOT NULL,
  entries int8 NOT NULL,
  PRIMARY KEY (site, subject)
);
CREATE INDEX IF NOT EXISTS known_standing ON known (site, kind, standing, since);
CREATE INDEX IF NOT EXISTS known_since ON known (site, kind, since, subject);

CREATE TABLE IF NOT EXISTS milestone (
  site text COLLATE "C" NOT NULL,
  subject text COLLATE "C" NOT NULL,
  standing text COLLATE "C" NOT NULL,
  since text COLLATE "C" NOT NULL,
  state text NOT NULL,
  folded_at text COLLATE "C" NOT NULL,
  folded_id text COLLATE "C" NOT NULL,
  entries int8 NOT NULL,
  PRIMARY KEY (site, subject, entries)
);

CREATE TABLE IF NOT EXISTS link (
  site text COLLATE "C" NOT NULL,
  from_subject text COLLATE "C" NOT NULL,
  relation text COLLATE "C" NOT NULL,
  to_subject text COLLATE "C" NOT NULL,
  at text COLLATE "C" NOT NULL,
  entry text COLLATE "C" NOT NULL,
  PRIMARY KEY (site, from_subject, relation, to_subject, at, entry)
);
CREATE INDEX IF NOT EXISTS link_to ON link (site, to_subject, relation, at);
CREATE INDEX IF NOT EXISTS link_from ON link (site, from_subject, relation, at);
CREATE INDEX IF NOT EXISTS link_entry ON link (entry);
`
