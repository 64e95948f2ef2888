import type { Step } from './step.ts'

/**
 * Sites whose record goes on in another store. The database itself refuses to add to it here, so that a service which was
 * left running cannot let the two part. A row goes when the record comes back.
 */
export const movedTable: Step = {
  to: 4,
  what: 'keep sites closed whose record was moved to another store',
  statements: {
    sqlite: [
      `CREATE TABLE moved (site TEXT PRIMARY KEY, at TEXT NOT NULL, goes_on TEXT NOT NULL) STRICT`,
      `CREATE TRIGGER entry_of_moved_site BEFORE INSERT ON entry
        WHEN EXISTS (SELECT 1 FROM moved WHERE site = NEW.site)
        BEGIN SELECT RAISE(ABORT, 'the record of this site goes on in another store'); END`,
    ],
    postgres: [
      `CREATE TABLE moved (site text COLLATE "C" PRIMARY KEY, at text COLLATE "C" NOT NULL, goes_on text NOT NULL)`,
      // Its own code, so that the service can tell it from a fault. The class NG is used by no part of PostgreSQL.
      `CREATE FUNCTION refuse_moved_site() RETURNS trigger LANGUAGE plpgsql AS $$
      BEGIN
        IF EXISTS (SELECT 1 FROM moved WHERE site = NEW.site) THEN
          RAISE EXCEPTION 'the record of this site goes on in another store' USING ERRCODE = 'NG001';
        END IF;
        RETURN NEW;
      END $$`,
      `CREATE TRIGGER entry_of_moved_site BEFORE INSERT ON entry FOR EACH ROW EXECUTE FUNCTION refuse_moved_site()`,
    ],
  },
}
