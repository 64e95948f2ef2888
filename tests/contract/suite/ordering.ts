import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import * as fc from 'fast-check'
import type { SentEntry } from '#road/entry.ts'
import { instant, millis } from '#road/instant.ts'
import { entryId, join, makeSet, mark, minutes, withdraw } from '../../support/entries.ts'
import { rivalsInOrder } from '../../support/rivals-in-order.ts'
import type { EngineUnderTest } from '../../support/store-under-test.ts'
import { derivedOf, keepAll, kept, open, standingClock, wantSound } from './opened.ts'

export function ordering(engine: EngineUnderTest): void {
  describe('clocks', () => {
    test('a clock that runs back never breaks the order, and is told of when it is more than a second', async () => {
      await using store = await engine.newStore()
      const clock = standingClock(minutes(60))
      await using journal = await open(store, clock)
      kept(await journal.append(makeSet(1, 'a')))
      clock.at = instant(millis(minutes(60)) - 900)
      const little = kept(await journal.append(mark(2, 'a')))
      clock.at = minutes(50)
      const much = kept(await journal.append(mark(3, 'a')))
      clock.at = minutes(61)
      const forward = kept(await journal.append(mark(4, 'a')))

      assert.deepEqual([little.recordedAt, little.judgement.findings], [minutes(60), []])
      assert.equal(much.recordedAt, minutes(60))
      assert.deepEqual(
        much.judgement.findings.map(({ rule, weight, measured }) => [rule, weight, measured]),
        [['clock-ran-back', 'caution', '600.0 s']],
      )
      assert.equal(forward.recordedAt, minutes(61))
      await wantSound(store)
    })
  })

  test('what is known and linked does not depend on the order of arrival, but for rival corrections', async () => {
    const sets = ['a', 'b', 'c']
    const made = sets.map((set, index) => makeSet(index + 1, set))
    await fc.assert(
      fc.asyncProperty(histories, fc.infiniteStream(fc.nat()), async (history, choices) => {
        await using one = await engine.newStore()
        await using other = await engine.newStore()
        await using inOrder = await open(one)
        await using shuffled = await open(other)
        await keepAll(inOrder, [...made, ...history])
        await keepAll(shuffled, made)
        // One by one or in batches: a batch must come to the same.
        const arrival = rivalsInOrder(
          anyOrder(history, () => choices.next().value ?? 0),
          history,
        )
        const cut = (choices.next().value ?? 0) % (arrival.length + 1)
        for (const entry of arrival.slice(0, cut)) await keepAll(shuffled, [entry])
        await keepAll(shuffled, arrival.slice(cut))
        assert.deepEqual(await derivedOf(shuffled, sets), await derivedOf(inOrder, sets))
        await wantSound(other)
      }),
      { numRuns: engine.name === 'sqlite' ? 60 : 15, seed: 20_261_125 },
    )
  })
}

type Step =
  | { readonly kind: 'mark'; readonly set: number; readonly minute: number }
  | { readonly kind: 'join'; readonly set: number; readonly minute: number }
  | { readonly kind: 'correct'; readonly which: number; readonly set: number; readonly minute: number }
  | { readonly kind: 'withdraw'; readonly which: number; readonly minute: number }

const which = fc.nat(99)
const set = fc.nat(2)
// Few different times, so that entries of one moment are common.
const minute = fc.nat(8)
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('mark'), set, minute }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('join'), set, minute }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('correct'), which, set, minute }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('withdraw'), which, minute }) },
)

const histories = fc.array(step, { minLength: 2, maxLength: 14 }).map((steps) => {
  const history: SentEntry[] = []
  for (const [index, step] of steps.entries()) history.push(entryOf(step, index, history))
  return history
})

function entryOf(step: Step, index: number, before: readonly SentEntry[]): SentEntry {
  const number = 100 + index
  const at = minutes(step.minute)
  const name = (offset: number) => ['a', 'b', 'c'][offset % 3] ?? 'a'
  if (step.kind === 'mark') return mark(number, name(step.set), { at })
  if (step.kind === 'join') return join(number, [name(step.set), name(step.set + 1)], { at })
  const target = before[step.which % Math.max(before.length, 1)]
  if (target === undefined || target.kind === 'entry-withdrawn') return mark(number, 'a', { at })
  const corrects = 100 + before.indexOf(target)
  if (step.kind === 'withdraw') return withdraw(number, corrects, { at })
  if (target.kind === 'set-marked') return mark(number, name(step.set), { at, corrects })
  return join(number, [name(step.set), name(step.set + 1)], { at, corrects })
}

/** Any order in which a correction comes after what it names. */
function anyOrder(history: readonly SentEntry[], choose: () => number): SentEntry[] {
  const waiting = [...history]
  const arrived = new Set<string>()
  const order: SentEntry[] = []
  while (waiting.length > 0) {
    const ready = waiting.filter(({ corrects }) => corrects === undefined || arrived.has(corrects))
    const next = ready[choose() % ready.length]
    assert.ok(next !== undefined && next.id !== entryId(0))
    waiting.splice(waiting.indexOf(next), 1)
    arrived.add(next.id)
    order.push(next)
  }
  return order
}
