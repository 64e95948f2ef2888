import { writeSync } from 'node:fs'
import { openJournal } from '#journal/open-journal.ts'
import type { Place } from '#journal/place.ts'
import type { SentEntry } from '#road/entry.ts'
import { makeSet, mark, minutes, start } from '../support/entries.ts'
import { seeded } from '../support/seeded.ts'
import { toyRoad } from '../support/toy-road.ts'

/*
 * Writes under load until it is killed: many clients at once, each telling the id of an entry as soon as its append
 * was answered. Run as: writer.ts PLACE SEED HONESTY. A writer that is `early` tells the id before the answer, as a
 * journal would that acknowledges before it is durable; the test must catch it.
 */

const [place = '{}', seed = '1', honesty = 'honest'] = process.argv.slice(2)
const random = seeded(Number(seed))
const clients = 40
// Ids of different rounds on one store must differ.
let number = Number(seed) * 1_000_000

const journal = await openJournal({ at: JSON.parse(place) as Place, road: toyRoad(), now: () => minutes(60) })
await Promise.all(Array.from({ length: clients }, (_, client) => write(client)))

async function write(client: number): Promise<void> {
  const set = `${seed}-${client}`
  let last = 0
  await keep(makeSet((number += 1), set))
  while (true) {
    number += 1
    const late = random() < 0.2
    const at = late ? start : minutes(Math.floor(random() * 50))
    const corrects = random() < 0.1 && last > 0 ? { corrects: last } : {}
    const entry = mark(number, set, { at, ...corrects })
    last = number
    await keep(entry)
  }
}

async function keep(entry: SentEntry): Promise<void> {
  if (honesty === 'early') tell(entry)
  const outcome = await journal.append(entry)
  if (outcome.kind !== 'kept') throw new Error(`The writer wanted its entry kept: ${JSON.stringify(outcome)}`)
  if (honesty !== 'early') tell(entry)
}

/** Written at once and not through a stream, which would hold back what the kill then takes away. */
function tell(entry: SentEntry): void {
  writeSync(1, `${entry.id}\n`)
}
