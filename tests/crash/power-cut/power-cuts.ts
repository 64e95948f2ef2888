import assert from 'node:assert/strict'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { fileURLToPath as pathOf } from 'node:url'
import { openJournal } from '#journal/open-journal.ts'
import { verify } from '#journal/verify/verify.ts'
import { minutes, site } from '../../support/entries.ts'
import { seeded } from '../../support/seeded.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { filesAfter } from './after-the-cut.ts'
import { type DiskEvent, recordDisk } from './recording.ts'

export interface CutsPlan {
  readonly recordings: number
  readonly cutsEach: number
  readonly seed: number
  /** When a recording ends; by default long enough for the log to be carried over into the file. */
  readonly size?: { readonly bytes: number; readonly seconds: number }
  readonly writer: 'journal' | { readonly plain: 'NORMAL' | 'FULL' }
  /** Not trusted: the syncs of the log are taken for words, as a disk would that lies. */
  readonly trustSyncs?: boolean
}

export interface CutsResult {
  readonly cuts: number
  /** Cuts behind which something that was acknowledged is not there. */
  readonly cutsThatLost: number
  readonly acknowledged: number
  readonly lost: number
  /** Cuts behind which the store could not be opened, or was not sound. */
  readonly notSound: readonly string[]
  /** How often the log was carried over into the file: cuts in the middle of it are the hard ones. */
  readonly checkpoints: number
}

/** Cuts the power of a writer at random moments, and looks at what is left. */
export async function powerCuts(plan: CutsPlan): Promise<CutsResult> {
  const random = seeded(plan.seed)
  const sum = { cuts: 0, cutsThatLost: 0, acknowledged: 0, lost: 0, notSound: [] as string[], checkpoints: 0 }
  for (let round = 0; round < plan.recordings; round += 1) {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-cut-'))
    try {
      const file = join(folder, 'data', 'unit.sqlite')
      const events = await recordDisk(
        folder,
        programOf(plan, file, round),
        plan.size ?? { bytes: 25_000_000, seconds: 15 },
      )
      sum.checkpoints += events.filter((event) => event.kind === 'synced' && event.path === file).length
      const first = events.findIndex(({ kind }) => kind === 'told')
      assert.ok(first > 0, 'the writer acknowledged something')
      for (let cut = 0; cut < plan.cutsEach; cut += 1) {
        const count = first + 1 + Math.floor(random() * (events.length - first - 1))
        const told = toldIn(events.slice(0, count))
        const after = join(folder, `after-${cut}`)
        mkdirSync(after)
        for (const [path, bytes] of filesAfter(events, { count, random, trustSyncs: plan.trustSyncs ?? true })) {
          writeFileSync(join(after, basename(path)), bytes)
        }
        sum.cuts += 1
        sum.acknowledged += told.length
        const there = await whatIsThere(plan, join(after, basename(file)))
        if (typeof there === 'string') sum.notSound.push(`recording ${round}, cut behind event ${count}: ${there}`)
        else {
          const lost = told.filter((id) => !there.has(id)).length
          sum.lost += lost
          if (lost > 0) sum.cutsThatLost += 1
        }
        rmSync(after, { recursive: true })
      }
    } finally {
      rmSync(folder, { recursive: true })
    }
  }
  return sum
}

function programOf({ writer, seed }: CutsPlan, file: string, round: number): string[] {
  if (writer !== 'journal') return [pathOf(new URL('./plain-writer.ts', import.meta.url)), file, writer.plain]
  const place = JSON.stringify({ kind: 'sqlite', file })
  return [pathOf(new URL('../writer.ts', import.meta.url)), place, String(seed * 10 + round), 'honest']
}

function toldIn(events: readonly DiskEvent[]): string[] {
  const text = events.map((event) => (event.kind === 'told' ? event.text : '')).join('')
  return text.split('\n').filter((id) => id !== '')
}

/** What was acknowledged and is there; or what is wrong with the store. */
async function whatIsThere({ writer }: CutsPlan, file: string): Promise<Set<string> | string> {
  try {
    return writer === 'journal' ? await entriesIn(file) : numbersIn(file)
  } catch (error) {
    return error instanceof Error ? error.message : String(error)
  }
}

async function entriesIn(file: string): Promise<Set<string>> {
  const at = { kind: 'sqlite', file } as const
  const ids = new Set<string>()
  {
    await using journal = await openJournal({ at, road: toyRoad(), now: () => minutes(60) })
    for await (const line of journal.exportLines()) {
      const id = /\\"id\\":\\"([0-9a-f-]+)\\"/.exec(line)?.[1]
      if (id !== undefined) ids.add(id)
    }
    assert.equal((await journal.read(site).head())?.seq ?? 0, ids.size, 'each entry is there once')
  }
  const result = await verify({ at, road: toyRoad() })
  assert.equal(result.kind, 'sound', JSON.stringify(result))
  return ids
}

function numbersIn(file: string): Set<string> {
  const database = new DatabaseSync(file)
  try {
    return new Set(
      database
        .prepare('SELECT number FROM told')
        .all()
        .map(({ number }) => String(number)),
    )
  } finally {
    database.close()
  }
}
