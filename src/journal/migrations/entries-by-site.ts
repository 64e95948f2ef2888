import type { Step } from './step.ts'

/** A fixed number, so that a new site needs no change of the tables. A site lies whole in the partition that its name gives. */
const partitions = Array.from({ length: 16 }, (_, number) => String(number).padStart(2, '0'))

const partitionsOf = (table: string): string =>
  partitions
    .map(
      (name, remainder) =>
        `CREATE TABLE ${table}_${name} PARTITION OF ${table} FOR VALUES WITH (MODULUS ${partitions.length}, REMAINDER ${remainder})`,
    )
    .join(';\n')

/** Makes room for a table of the same name. The old one goes at the end of the step. */
const setAside = (table: string, ...indexes: readonly string[]): string[] => [
  `ALTER TABLE ${table} RENAME TO ${table}_of_7`,
  ...indexes.map((index) => `ALTER INDEX ${index} RENAME TO ${index}_of_7`),
]

/** Row by row as they were, those of a site side by side. Constraints and indexes come after: so each is built once. */
const carryOver = (table: string, columns: string, order: string): string =>
  `INSERT INTO ${table} (${columns}) SELECT ${columns} FROM ${table}_of_7 ORDER BY ${order}`

const entryColumns = 'site, seq, id, kind, happened_at, recorded_at, corrects, text, hash'
const aboutColumns = 'site, subject, happened_at, id, seq'
const linkColumns = 'site, from_subject, relation, to_subject, at, entry'

/**
 * On PostgreSQL the tables that grow with every entry are cut into partitions by the site. The database can hold an id unique
 * only within a partition, so that all of them stand once more in `entry_id`, which is filled by the database itself.
 */
export const entriesBySite: Step = {
  to: 8,
  what: 'let the entries of a site lie together',
  statements: {
    sqlite: [],
    postgres: [
      ...setAside('entry', 'entry_pkey', 'entry_corrects'),
      ...setAside('about', 'about_pkey', 'about_entry'),
      ...setAside('link', 'link_pkey', 'link_to', 'link_from', 'link_entry'),

      `CREATE TABLE entry (
        site text COLLATE "C" NOT NULL,
        seq int8 NOT NULL CHECK (seq >= 1),
        id text COLLATE "C" NOT NULL,
        kind text COLLATE "C" NOT NULL,
        happened_at text COLLATE "C" NOT NULL,
        recorded_at text COLLATE "C" NOT NULL,
        corrects text COLLATE "C",
        text text NOT NULL,
        hash text NOT NULL
      ) PARTITION BY HASH (site)`,
      partitionsOf('entry'),
      carryOver('entry', entryColumns, 'site, seq'),
      // The id first, so that an id whose site is not known is found too.
      `ALTER TABLE entry ADD PRIMARY KEY (site, seq), ADD UNIQUE (id, site)`,
      `ALTER TABLE entry ADD FOREIGN KEY (site, corrects) REFERENCES entry (site, id)`,
      `CREATE INDEX entry_corrects ON entry (corrects) WHERE corrects IS NOT NULL`,

      `CREATE TABLE entry_id (id text COLLATE "C" NOT NULL)`,
      `INSERT INTO entry_id (id) SELECT id FROM entry_of_7 ORDER BY id`,
      `ALTER TABLE entry_id ADD PRIMARY KEY (id)`,
      `CREATE FUNCTION take_entry_id() RETURNS trigger LANGUAGE plpgsql AS $$
      BEGIN
        INSERT INTO entry_id (id) VALUES (NEW.id);
        RETURN NEW;
      END $$`,
      `CREATE TRIGGER entry_takes_its_id BEFORE INSERT ON entry FOR EACH ROW EXECUTE FUNCTION take_entry_id()`,
      `CREATE TRIGGER entry_of_moved_site BEFORE INSERT ON entry FOR EACH ROW EXECUTE FUNCTION refuse_moved_site()`,

      // Of a statement only the triggers of the table that it names fire; those of rows, and of TRUNCATE, of the partitions too.
      `CREATE TRIGGER entry_is_append_only
        BEFORE UPDATE OR DELETE OR TRUNCATE ON entry FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
      `CREATE TRIGGER entry_row_is_append_only
        BEFORE UPDATE OR DELETE ON entry FOR EACH ROW EXECUTE FUNCTION refuse_change()`,
      `CREATE TRIGGER entry_id_is_append_only
        BEFORE UPDATE OR DELETE OR TRUNCATE ON entry_id FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
      partitions
        .map(
          (name) => `CREATE TRIGGER entry_${name}_is_append_only BEFORE INSERT OR UPDATE OR DELETE OR TRUNCATE
            ON entry_${name} FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
        )
        .join(';\n'),

      `CREATE TABLE about (
        site text COLLATE "C" NOT NULL,
        subject text COLLATE "C" NOT NULL,
        happened_at text COLLATE "C" NOT NULL,
        id text COLLATE "C" NOT NULL,
        seq int8 NOT NULL
      ) PARTITION BY HASH (site)`,
      partitionsOf('about'),
      carryOver('about', aboutColumns, 'site, subject, happened_at, id'),
      `ALTER TABLE about ADD PRIMARY KEY (site, subject, happened_at, id)`,
      `CREATE INDEX about_entry ON about (id)`,

      `CREATE TABLE link (
        site text COLLATE "C" NOT NULL,
        from_subject text COLLATE "C" NOT NULL,
        relation text COLLATE "C" NOT NULL,
        to_subject text COLLATE "C" NOT NULL,
        at text COLLATE "C" NOT NULL,
        entry text COLLATE "C" NOT NULL
      ) PARTITION BY HASH (site)`,
      partitionsOf('link'),
      carryOver('link', linkColumns, 'site, from_subject, relation, to_subject, at, entry'),
      `ALTER TABLE link ADD PRIMARY KEY (site, from_subject, relation, to_subject, at, entry)`,
      `CREATE INDEX link_to ON link (site, to_subject, relation, at)`,
      `CREATE INDEX link_from ON link (site, from_subject, relation, at)`,
      `CREATE INDEX link_entry ON link (entry)`,

      `DROP TABLE entry_of_7, about_of_7, link_of_7`,
    ],
  },
}
