import { DatabaseSync, type StatementSync } from 'node:sqlite'
import { openJournal } from '#journal/open-journal.ts'
import { instant, type Instant } from '#road/instant.ts'
import { folds } from '#road/known.ts'
import type { Relation } from '#road/link.ts'
import { type SubjectId, subjectKind } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'

/*
 * A store with many rounds, for timing reads. What trace and recall read (known subjects and links)
 * is written straight into the tables, since keeping ten million entries one by one would take hours
 * and would not change what a read costs.
 */

export const site = 'bench'
const roundsPerLoad = 6
const roundsPerWash = 4
const roundsPerCase = 4
const loadsPerGoodResult = 10
const people = 40
const sets = 60
const start = Date.UTC(2020, 0, 1)
const minutesPerRound = 5

export interface BigRecord {
  readonly file: string
  readonly rounds: number
  readonly links: number
  /** Loads whose indicator grew, spread over the record, and wounds likewise. */
  readonly recalls: readonly SubjectId<'recall'>[]
  readonly wounds: readonly SubjectId<'wound'>[]
}

export async function makeBigRecord(file: string, rounds: number): Promise<BigRecord> {
  await (await openJournal({ at: { kind: 'sqlite', file }, road: theRoad, now: () => instant(start) })).close()
  const db = new DatabaseSync(file)
  db.exec('PRAGMA synchronous=OFF; PRAGMA cache_size=-400000')
  const indexes = db
    .prepare(
      `SELECT name, sql FROM sqlite_master WHERE type = 'index' AND tbl_name IN ('link', 'known') AND sql IS NOT NULL`,
    )
    .all()
    .map((row) => ({ name: String(row['name']), sql: String(row['sql']) }))
  for (const { name } of indexes) db.exec(`DROP INDEX ${name}`)
  const writer = new Writer(db)
  db.exec('BEGIN')
  const made = fill(writer, rounds)
  db.exec('COMMIT')
  for (const { sql } of indexes) db.exec(sql)
  db.exec('ANALYZE')
  db.close()
  return { file, rounds, links: writer.links, ...made }
}

class Writer {
  links = 0
  readonly #known: StatementSync
  readonly #link: StatementSync
  #entries = 0

  constructor(db: DatabaseSync) {
    this.#known = db.prepare('INSERT INTO known VALUES (?, ?, ?, ?, ?, ?, ?, ?, 1)')
    this.#link = db.prepare('INSERT INTO link VALUES (?, ?, ?, ?, ?, ?)')
  }

  known(subject: SubjectId, at: Instant, state: object): void {
    const kind = subjectKind(subject)
    const fold = folds[kind]
    const full = { ...(fold.begin(subject) as object), ...state }
    this.#known.run(site, subject, kind, fold.standing(full), at, JSON.stringify(full), at, this.#entry())
  }

  link(from: SubjectId, relation: Relation, to: SubjectId, at: Instant): void {
    this.links += 1
    this.#link.run(site, from, relation, to, at, this.#entry())
  }

  /** Ids of the right shape and order; nothing reads the entries behind them here. */
  #entry(): string {
    this.#entries += 1
    const hex = (start + this.#entries).toString(16).padStart(12, '0')
    return `${hex.slice(0, 8)}-${hex.slice(8)}-7000-8000-${this.#entries.toString(16).padStart(12, '0')}`
  }
}

function fill(writer: Writer, rounds: number): Pick<BigRecord, 'recalls' | 'wounds'> {
  const at = (round: number): Instant => instant(start + round * minutesPerRound * 60_000)
  const person = (n: number): SubjectId<'person'> => `person:p${n % people}`
  const id = (n: number): string => String(n).padStart(8, '0')
  const recalls: SubjectId<'recall'>[] = []
  const wounds: SubjectId<'wound'>[] = []
  const failEvery = Math.max(1, Math.floor(rounds / roundsPerLoad / 50))
  const woundEvery = Math.max(1, Math.floor(rounds / roundsPerCase / 200))

  for (let n = 0; n < people; n += 1) writer.known(person(n), at(0), { name: `Person ${n}` })
  for (let n = 0; n < sets; n += 1) writer.known(`set:s${n}`, at(0), { name: `Set ${n}` })
  writer.known('machine:steam', at(0), { name: 'Steam' })
  writer.known('machine:washer', at(0), { name: 'Washer' })

  for (let n = 0; n < rounds; n += 1) {
    const round: SubjectId<'round'> = `round:r${id(n)}`
    const load: SubjectId<'load'> = `load:l${id(Math.floor(n / roundsPerLoad))}`
    const wash: SubjectId<'wash'> = `wash:w${id(Math.floor(n / roundsPerWash))}`
    const opened: SubjectId<'case'> = `case:c${id(Math.floor(n / roundsPerCase))}`
    const moment = at(n)
    const step = { at: moment, entry: 'e', by: person(n) }
    writer.known(round, moment, {
      set: `set:s${n % sets}`,
      load: { ...step, id: load },
      wash: {
        ...step,
        id: wash,
        how: { kind: 'washer', machine: 'machine:washer', program: 'p', takenApart: true, a0Seconds: 900 },
      },
      sealed: {
        ...step,
        wrap: 'doubleWrap',
        insideIndicator: null,
        outsideIndicator: null,
        counted: [],
        implant: n % 40 === 0,
      },
      decision: { ...step, load, outcome: 'released', why: null },
      stored: { ...step, place: 'A1' },
      opened: { ...step, case: opened, outsideIndicator: 'changed', insideIndicator: 'changed', condition: 'intact' },
    })
    writer.link(round, 'of', `set:s${n % sets}`, moment)
    writer.link(round, 'usedIn', `case:c${id(Math.max(0, Math.floor(n / roundsPerCase) - 15))}`, moment)
    if (n >= sets) writer.link(round, 'follows', `round:r${id(n - sets)}`, moment)
    writer.link(round, 'washedIn', wash, moment)
    writer.link(round, 'inLoad', load, moment)
    writer.link(round, 'openedFor', opened, moment)
    for (let stepNumber = 0; stepNumber < 12; stepNumber += 1)
      writer.link(round, 'by', person(n + stepNumber), at(n + stepNumber))

    if (n % roundsPerLoad === 0) {
      const number = n / roundsPerLoad
      const failed = number % failEvery === failEvery - 1
      const good = number % loadsPerGoodResult === 0
      const read = {
        ...step,
        lot: 'b',
        result: failed ? 'growth' : 'noGrowth',
        control: { lot: 'b', result: 'growth' },
        incubatedHours: 24,
      }
      const members = Array.from({ length: roundsPerLoad }, (_, member) => `round:r${id(n + member)}`)
      writer.known(load, moment, {
        machine: 'machine:steam',
        program: 'porous-134',
        rounds: members,
        builtAt: moment,
        biological: good || failed ? [read] : [],
      })
      writer.link(load, 'ranOn', 'machine:steam', moment)
      for (let by = 0; by < 4; by += 1) writer.link(load, 'by', person(number + by), moment)
      if (failed) {
        const recall: SubjectId<'recall'> = `recall:l${id(number)}`
        recalls.push(recall)
        writer.known(recall, moment, {
          load,
          opened: { ...step, because: 'biologicalGrowth', why: 'growth', defectProven: false, since: null },
        })
        writer.link(recall, 'recalls', load, moment)
      }
    }
    if (n % roundsPerWash === 0) {
      writer.known(wash, moment, { at: moment, rounds: [], how: { kind: 'washer' } })
      writer.link(wash, 'ranOn', 'machine:washer', moment)
      writer.link(wash, 'by', person(n), moment)
    }
    if (n % roundsPerCase === 0) {
      const number = n / roundsPerCase
      writer.known(opened, moment, {})
      writer.link(opened, 'by', person(number), moment)
      writer.link(opened, 'by', person(number + 1), moment)
      if (number % woundEvery === woundEvery - 1) {
        const wound: SubjectId<'wound'> = `wound:w${id(number)}`
        wounds.push(wound)
        writer.known(wound, moment, {})
        writer.link(wound, 'woundOf', opened, moment)
      }
    }
  }
  return { recalls, wounds }
}
