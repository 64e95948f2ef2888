import type { Step } from './step.ts'

/** What goes with a site and would be lost at the store that it left. */
const carried = ['account', 'device', 'passkey'] as const
const changes = ['INSERT', 'UPDATE', 'DELETE'] as const

const refuse = `BEGIN SELECT RAISE(ABORT, 'the record of this site goes on in another store'); END`

/**
 * Who may sign in and who the patients are is closed with the entries of a site that was moved: what a service that was left
 * running took here would not be where the record goes on. An identity can still be erased, since it is held here too.
 */
export const movedBeside: Step = {
  to: 7,
  what: 'close with a moved site who may sign in and who the patients are',
  statements: {
    sqlite: [
      ...carried.flatMap((table) =>
        changes.map(
          (change) => `CREATE TRIGGER ${table}_of_moved_site_${change.toLowerCase()} BEFORE ${change} ON ${table}
        WHEN EXISTS (SELECT 1 FROM moved WHERE site = ${change === 'DELETE' ? 'OLD' : 'NEW'}.site) ${refuse}`,
        ),
      ),
      ...(['INSERT', 'UPDATE'] as const).map(
        (change) => `CREATE TRIGGER identity_of_moved_site_${change.toLowerCase()} BEFORE ${change} ON identity
        WHEN NEW.sealed IS NOT NULL AND EXISTS (SELECT 1 FROM moved WHERE site = NEW.site) ${refuse}`,
      ),
    ],
    postgres: [
      `CREATE FUNCTION refuse_beside_moved_site() RETURNS trigger LANGUAGE plpgsql AS $$
      BEGIN
        IF EXISTS (SELECT 1 FROM moved WHERE site = COALESCE(NEW.site, OLD.site)) THEN
          RAISE EXCEPTION 'the record of this site goes on in another store' USING ERRCODE = 'NG001';
        END IF;
        RETURN COALESCE(NEW, OLD);
      END $$`,
      ...carried.map(
        (table) => `CREATE TRIGGER ${table}_of_moved_site BEFORE INSERT OR UPDATE OR DELETE ON ${table}
        FOR EACH ROW EXECUTE FUNCTION refuse_beside_moved_site()`,
      ),
      `CREATE TRIGGER identity_of_moved_site BEFORE INSERT OR UPDATE ON identity
        FOR EACH ROW WHEN (NEW.sealed IS NOT NULL) EXECUTE FUNCTION refuse_beside_moved_site()`,
    ],
  },
}
