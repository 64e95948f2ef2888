import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { openJournal } from '#journal/open-journal.ts'
import type { Reader } from '#journal/journal.ts'
import { SiteId } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { packsInDoubt } from '#road/storing/packs-in-doubt.ts'
import type { SubjectId } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'
import { makeBigRecord, site } from './big-record.ts'
import { type BenchRow, rowOf, timed } from './measure.ts'

/*
 * What it costs to say whether one pack on the shelf is in doubt while recalls are open: on another steriliser, as most
 * are, and on the steriliser of the pack itself.
 */

const rounds = 10_000
const runs = 9

export async function doubtsBench(): Promise<readonly BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-bench-'))
  try {
    const { file, recalls } = await makeBigRecord(join(folder, 'big.sqlite'), rounds)
    const rows: BenchRow[] = []
    for (const where of ['another steriliser', 'its own steriliser'] as const) {
      const pack = placePack(file, where)
      for (const count of [1, 10, 50]) {
        openOnly(file, recalls.slice(0, count))
        rows.push(await measure(file, pack, `doubts with ${count} open recalls`, where))
      }
    }
    return rows
  } finally {
    rmSync(folder, { recursive: true })
  }
}

async function measure(file: string, pack: SubjectId<'round'>, name: string, where: string): Promise<BenchRow> {
  const now = instant(Date.UTC(2030, 0, 1))
  await using journal = await openJournal({ at: { kind: 'sqlite', file }, road: theRoad, now: () => now })
  const look: Reader = journal.read(SiteId.parse(site))
  const round = (await look.known([pack])).get(pack)
  assert.ok(round)
  const once = () => timed(() => packsInDoubt(look, [round], now))
  return await rowOf(name, 'ms', runs, once, `on ${where}; ${rounds.toLocaleString('en')} rounds, one pack asked for`)
}

/** The last pack of the record lies on a shelf; with `another steriliser`, its load was run where no recall is. */
function placePack(file: string, where: 'another steriliser' | 'its own steriliser'): SubjectId<'round'> {
  const pack: SubjectId<'round'> = `round:r${String(rounds - 1).padStart(8, '0')}`
  const db = new DatabaseSync(file)
  db.prepare(`UPDATE known SET state = json_set(state, '$.opened', NULL) WHERE subject = ?`).run(pack)
  const machine = where === 'another steriliser' ? 'machine:other' : 'machine:steam'
  db.prepare(
    `UPDATE known SET state = json_set(state, '$.machine', ?) WHERE subject =
      (SELECT json_extract(state, '$.load.id') FROM known WHERE subject = ?)`,
  ).run(machine, pack)
  db.close()
  return pack
}

function openOnly(file: string, open: readonly SubjectId<'recall'>[]): void {
  const db = new DatabaseSync(file)
  db.exec(`UPDATE known SET standing = 'closed' WHERE kind = 'recall'`)
  const reopen = db.prepare(`UPDATE known SET standing = 'open' WHERE subject = ?`)
  for (const recall of open) reopen.run(recall)
  db.close()
}
