import type { Step } from './step.ts'

/** A table of its own: a seal is said about the chain, and is no link of it. Added to only, as the record is. */
export const sealTable: Step = {
  to: 2,
  what: 'keep the seals',
  statements: {
    sqlite: [
      `CREATE TABLE seal (
        site TEXT NOT NULL,
        sealed_at TEXT NOT NULL,
        signature TEXT NOT NULL,
        seq INTEGER NOT NULL,
        text TEXT NOT NULL,
        PRIMARY KEY (site, sealed_at, signature)
      ) STRICT`,
      `CREATE TRIGGER seal_is_never_replaced BEFORE INSERT ON seal
        WHEN EXISTS (SELECT 1 FROM seal WHERE site = NEW.site AND sealed_at = NEW.sealed_at AND signature = NEW.signature)
        BEGIN SELECT RAISE(ABORT, 'seals are only added: this one is kept already'); END`,
      `CREATE TRIGGER seal_is_never_updated BEFORE UPDATE ON seal
        BEGIN SELECT RAISE(ABORT, 'seals are only added: they are never updated'); END`,
      `CREATE TRIGGER seal_is_never_deleted BEFORE DELETE ON seal
        BEGIN SELECT RAISE(ABORT, 'seals are only added: they are never deleted'); END`,
    ],
    postgres: [
      `CREATE TABLE seal (
        site text COLLATE "C" NOT NULL,
        sealed_at text COLLATE "C" NOT NULL,
        signature text COLLATE "C" NOT NULL,
        seq int8 NOT NULL,
        text text NOT NULL,
        PRIMARY KEY (site, sealed_at, signature)
      )`,
      `CREATE TRIGGER seal_is_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON seal
        FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
    ],
  },
}
