import { writeSync } from 'node:fs'
import { DatabaseSync } from 'node:sqlite'

/*
 * Adds numbers to a table and tells each when its commit came back. Run as: plain-writer.ts FILE SYNCHRONOUS. It is no
 * journal: it shows what the same engine loses in a power cut when it is told to sync less.
 */

const [file = '', synchronous = 'FULL'] = process.argv.slice(2)
const database = new DatabaseSync(file)
database.exec(`PRAGMA journal_mode = WAL; PRAGMA synchronous = ${synchronous}; CREATE TABLE told (number INTEGER)`)
const insert = database.prepare('INSERT INTO told VALUES (?)')
for (let number = 1; ; number += 1) {
  insert.run(number)
  writeSync(1, `${number}\n`)
}
