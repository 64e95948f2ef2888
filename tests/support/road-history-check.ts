import assert from 'node:assert/strict'
import type { Instant } from '#road/instant.ts'
import type { TypedKept, TypedSent } from '#road/kinds.ts'
import { kindNamed } from '#road/read-entry.ts'
import { policyFrom } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import { packsInDoubt } from '#road/storing/packs-in-doubt.ts'
import { releasedStillProven } from '#road/storing/rules/released-still-proven.ts'
import { theRoad } from '#road/the-road.ts'
import { recallExtent } from '#road/tracing/recall-extent.ts'
import { trace } from '#road/tracing/trace.ts'
import { MemoryRecord, refolded } from './memory-record.ts'
import { RandomHistory } from './random-history.ts'
import { rivalsInOrder } from './rivals-in-order.ts'
import { clerkExtent, clerkLostProof, clerkRefusal } from './road-oracle.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'

/** What was compared, so that a test can show that it compared enough. */
export interface Compared {
  entries: number
  decisions: number
  refused: number
  extents: number
  /** Released packs that were asked about, and those of them whose proof was lost. */
  released: number
  lost: number
  subjects: number
  chains: number
}

export function nothingCompared(): Compared {
  return { entries: 0, decisions: 0, refused: 0, extents: 0, released: 0, lost: 0, subjects: 0, chains: 0 }
}

type Handled = Extract<TypedSent, { kind: 'pack-stored' | 'pack-opened' }>

/** Lives through one random history and holds all that the road says of it against the clerk. */
export async function checkHistory(seed: number, entries: number, compared: Compared): Promise<void> {
  const record = new MemoryRecord()
  const random = seededRandom(seed + 1)
  let decisions = 0
  let handled = 0
  const receiver = {
    async send(...[entry, now]: Parameters<ConstructorParameters<typeof RandomHistory>[1]['send']>): Promise<boolean> {
      if (kindNamed(entry.kind)?.nature !== 'decision') {
        if (entry.kind === 'pack-stored' || entry.kind === 'pack-opened') {
          handled += 1
          // A third of them, for the same reason as with the decisions.
          if (handled % 3 === 0) await compareHandled(record, { seed, entry, now }, compared)
        }
        record.keep(entry, now)
        return true
      }
      const { kept, findings } = await record.decide(entry, now)
      decisions += 1
      // The clerk reads the whole list anew each time, so a part of the decisions has to be enough.
      if (entry.kind === 'load-decided' && decisions % 4 === 0) {
        const against = clerkRefusal(record.entriesBefore(entry), entry)
        const say = JSON.stringify({ seed, entry, findings, against })
        assert.equal(kept, against.length === 0, `The road and the clerk disagree about a release: ${say}`)
        compared.decisions += 1
        if (!kept) compared.refused += 1
      }
      return kept
    },
  }
  const history = new RandomHistory(seed, receiver)
  for (const part of [0.4, 0.7, 1]) {
    await history.run(entries * part)
    await compareExtents(record, seed, compared)
    await compareDoubts(record, { seed, now: history.now }, compared)
  }
  compared.entries += record.entries.length
  compareFolds(record, random, compared)
  await compareTraces(record, random, compared)
}

/** A pack that is put on the shelf or opened raises the alarm when the clerk finds its proof lost, and only then. */
async function compareHandled(
  record: MemoryRecord,
  { seed, entry, now }: { readonly seed: number; readonly entry: Handled; readonly now: Instant },
  compared: Compared,
): Promise<void> {
  const round = (await record.known([entry.body.round])).get(entry.body.round)
  if (round?.decision?.outcome !== 'released') return
  const { findings } = await theRoad.judge(record, entry, now)
  const lost = clerkLostProof(record.entries, entry.body.round, round.decision.load)
  if (lost === 'undecided') return
  const found = findings.filter((each) => each.rule === releasedStillProven.id).map((each) => each.says)
  const say = JSON.stringify({ seed, entry, found, lost })
  assert.equal(found.length > 0, lost.length > 0, `The road and the clerk disagree about a released pack: ${say}`)
  compared.released += 1
  if (lost.length > 0) compared.lost += 1
}

/** The packs that wait on the shelf: those whose proof the clerk finds lost are in doubt, and no others. */
async function compareDoubts(
  record: MemoryRecord,
  { seed, now }: { readonly seed: number; readonly now: Instant },
  compared: Compared,
): Promise<void> {
  const rounds = await record.standing('round', ['released', 'onShelf'])
  const doubts = await packsInDoubt(record, rounds, now)
  for (const { id, decision } of rounds) {
    if (decision?.outcome !== 'released') continue
    const lost = clerkLostProof(record.entries, id, decision.load)
    if (lost === 'undecided') continue
    const found = (doubts.get(id) ?? []).filter((each) => each.rule === releasedStillProven.id).map((each) => each.says)
    const say = JSON.stringify({ seed, id, load: decision.load, found, lost })
    assert.equal(found.length > 0, lost.length > 0, `The road and the clerk disagree about a pack in doubt: ${say}`)
    compared.released += 1
    if (lost.length > 0) compared.lost += 1
  }
}

async function compareExtents(record: MemoryRecord, seed: number, compared: Compared): Promise<void> {
  for (const { id } of await record.standing('recall', ['open', 'closed'])) {
    const extent = await recallExtent(record, id, policyFrom(undefined))
    const clerk = clerkExtent(record.entries, id)
    if (clerk?.verdict === 'unknown') continue
    const said =
      extent === undefined
        ? undefined
        : {
            open: extent.standing === 'open',
            lastGood: extent.lastGood,
            verdict: extent.verdict,
            duties: Object.fromEntries(extent.loads.map((load) => [load.load, load.duty])),
            packs: extent.packs
              .map(
                (pack) =>
                  `${pack.round} ${pack.load} ${pack.duty} ${pack.case ?? 'no case'} ${pack.outcome ?? 'not accounted'}`,
              )
              .sort(),
          }
    assert.deepEqual(said, clerk, `The extent of ${id} differs (seed ${seed})`)
    compared.extents += 1
  }
}

/** Every subject folds to the same state when its entries come in any other order, the rivals of one entry apart. */
function compareFolds(record: MemoryRecord, random: SeededRandom, compared: Compared): void {
  const again = new MemoryRecord()
  for (const entry of rivalsInOrder(shuffled(record.entries, random), record.entries)) again.keep(entry)
  const other = again.everything()
  for (const [subject, state] of record.everything()) {
    assert.deepEqual(other.get(subject), state, `${subject} depends on the order of arrival`)
    assert.deepEqual(refolded(subject, shuffled(record.entriesOf(subject), random)).state, state)
    compared.subjects += 1
  }
}

function shuffled(entries: readonly TypedKept[], random: SeededRandom): TypedKept[] {
  const order = [...entries]
  for (let last = order.length - 1; last > 0; last -= 1) {
    const other = random.whole(0, last)
    const [a, b] = [order[last], order[other]]
    if (a !== undefined && b !== undefined) [order[last], order[other]] = [b, a]
  }
  return order
}

const wide = { links: 100_000, levels: 8 }

/** What is found forward from A leads back to A along the same links. */
async function compareTraces(record: MemoryRecord, random: SeededRandom, compared: Compared): Promise<void> {
  const subjects = [...record.everything().keys()]
  for (let round = 0; round < 12; round += 1) {
    const start = subjects[random.whole(0, subjects.length - 1)]
    if (start === undefined) return
    const forward = await trace(record, start, 'forward', wide)
    for (const node of forward.nodes.filter((each) => each.subject !== start).slice(0, 6)) {
      const back = await trace(record, node.subject, 'back', wide)
      const onTheWay = chain(forward.links, start, node.subject)
      assert.ok(onTheWay !== undefined, `no chain from ${start} to ${node.subject}`)
      const found = new Set(back.links.map(linkName))
      assert.ok(
        back.nodes.some((each) => each.subject === start),
        `${start} is not found back from ${node.subject}`,
      )
      for (const link of onTheWay) assert.ok(found.has(link), `${link} is not found back from ${node.subject}`)
      assert.equal(back.nodes.find((each) => each.subject === start)?.distance, -node.distance)
      compared.chains += 1
    }
  }
}

const linkName = (link: { from: string; relation: string; to: string; entry: string }): string =>
  `${link.from} ${link.relation} ${link.to} ${link.entry}`

/** A shortest chain of links between two subjects. */
function chain(
  links: Awaited<ReturnType<typeof trace>>['links'],
  from: SubjectId,
  to: SubjectId,
): readonly string[] | undefined {
  const ways = new Map<SubjectId, readonly string[]>([[from, []]])
  for (const [here, way] of ways) {
    if (here === to) return way
    for (const link of links) {
      if (link.from !== here && link.to !== here) continue
      const there = link.from === here ? link.to : link.from
      if (!ways.has(there)) ways.set(there, [...way, linkName(link)])
    }
  }
  return undefined
}
