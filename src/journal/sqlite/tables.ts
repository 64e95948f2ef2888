/**
 * The tables on SQLite. STRICT: a wrong type is an error instead of a surprise.
 * The triggers make the database itself refuse a change of the record; the one on INSERT stands against
 * INSERT OR REPLACE, which removes the old row without firing a delete trigger.
 */
export const sqliteTables = `
CREATE TABLE IF NOT EXISTS meta (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;

CREATE TABLE IF NOT EXISTS entry (
  site TEXT NOT NULL,
  seq INTEGER NOT NULL CHECK (seq >= 1),
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  happened_at TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  corrects TEXT REFERENCES entry (id),
  text TEXT NOT NULL,
  hash TEXT NOT NULL,
  PRIMARY KEY (site, seq)
) STRICT;
CREATE INDEX IF NOT EXISTS entry_corrects ON entry (corrects) WHERE corrects IS NOT NULL;

CREATE TRIGGER IF NOT EXISTS entry_is_never_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR (site = NEW.site AND seq = NEW.seq))
BEGIN SELECT RAISE(ABORT, 'the journal is append only: this entry is kept already'); END;
CREATE TRIGGER IF NOT EXISTS entry_is_never_updated BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'the journal is append only: entries are never updated'); END;
CREATE TRIGGER IF NOT EXISTS entry_is_never_deleted BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'the journal is append only: entries are never deleted'); END;

CREATE TABLE IF NOT EXISTS attachment (
  digest TEXT PRIMARY KEY,
  media_type TEXT NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE TRIGGER IF NOT EXISTS attachment_is_never_replaced BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM attachment WHERE digest = NEW.digest)
BEGIN SELECT RAISE(ABORT, 'the journal is append only: this attachment is kept already'); END;
CREATE TRIGGER IF NOT EXISTS attachment_is_never_updated BEFORE UPDATE ON attachment
BEGIN SELECT RAISE(ABORT, 'the journal is append only: attachments are never updated'); END;
CREATE TRIGGER IF NOT EXISTS attachment_is_never_deleted BEFORE DELETE ON attachment
BEGIN SELECT RAISE(ABORT, 'the journal is append only: attachments are never deleted'); END;

CREATE TABLE IF NOT EXISTS head (
  site TEXT PRIMARY KEY,
  seq INTEGER NOT NULL,
  hash TEXT NOT NULL,
  recorded_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE IF NOT EXISTS about (
  site TEXT NOT NULL,
  subject TEXT NOT NULL,
  happened_at TEXT NOT NULL,
  id TEXT NOT NULL,
  seq INTEGER NOT NULL,
  PRIMARY KEY (site, subject, happened_at, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX IF NOT EXISTS about_entry ON about (id);

CREATE TABLE IF NOT EXISTS known (
  site TEXT NOT NULL,
  subject TEXT NOT NULL,
  kind TEXT NOT NULL,
  standing TEXT NOT NULL,
  since TEXT NOT NULL,
  state TEXT NOT NULL,
  folded_at TEXT NOT NULL,
  folded_id TEXT NOT NULL,
  entries INTEGER NOT NULL,
  PRIMARY KEY (site, subject)
) STRICT;
CREATE INDEX IF NOT EXISTS known_standing ON known (site, kind, standing, since);
CREATE INDEX IF NOT EXISTS known_since ON known (site, kind, since, subject);

CREATE TABLE IF NOT EXISTS milestone (
  site TEXT NOT NULL,
  subject TEXT NOT NULL,
  standing TEXT NOT NULL,
  since TEXT NOT NULL,
  state TEXT NOT NULL,
  folded_at TEXT NOT NULL,
  folded_id TEXT NOT NULL,
  entries INTEGER NOT NULL,
  PRIMARY KEY (site, subject, entries)
) STRICT;

CREATE TABLE IF NOT EXISTS link (
  site TEXT NOT NULL,
  from_subject TEXT NOT NULL,
  relation TEXT NOT NULL,
  to_subject TEXT NOT NULL,
  at TEXT NOT NULL,
  entry TEXT NOT NULL,
  PRIMARY KEY (site, from_subject, relation, to_subject, at, entry)
) STRICT, WITHOUT ROWID;
CREATE INDEX IF NOT EXISTS link_to ON link (site, to_subject, relation, at);
CREATE INDEX IF NOT EXISTS link_from ON link (site, from_subject, relation, at);
CREATE INDEX IF NOT EXISTS link_entry ON link (entry);
`
