import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import type { EntryId, SiteId } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import type { Bodies, KindName, TypedSent } from '#road/kinds.ts'
import { policyFrom } from '#road/policy.ts'
import { recallExtent } from '#road/tracing/recall-extent.ts'
import { type Answer, MemoryRecord } from '../support/memory-record.ts'

/*
 * Random lives of one bath of ortho-phthalaldehyde, held against a clerk who knows the label by heart: 12 min at 20 °C,
 * 14 days, 0.3 %, three rinses, a strip for each use from a bottle that was tried.
 */

const begin = Date.parse('2026-03-01T08:00:00.000Z')
const minute = 60_000
const day = 24 * 60 * minute
type StripHeard = { at: number; result: 'pass' | 'fail' | { percent: number }; seconds: number; bottle: string }

/** Mostly right, so that many a use comes near to counting. */
function mostly<T>(right: T, ...wrong: readonly T[]): fc.Arbitrary<T> {
  return fc.oneof({ weight: 24, arbitrary: fc.constant(right) }, fc.constantFrom(...wrong))
}
const wait = fc.oneof({ weight: 12, arbitrary: fc.integer({ min: 0, max: 50 }) }, fc.integer({ min: 0, max: 3000 }))

const happening = fc.oneof(
  fc.record({ kind: fc.constant('warm' as const), wait, celsius: fc.constantFrom(18, 19.9, 20, 20, 21, 23) }),
  fc.record({
    kind: fc.constant('strip' as const),
    wait,
    result: mostly<StripHeard['result']>('pass', { percent: 0.3 }, { percent: 0.3 }, 'fail', { percent: 0.29 }),
    seconds: mostly(80, 74, 75, 90, 91),
    bottle: mostly('good', 'bad'),
  }),
  fc.record({ kind: fc.constant('topUp' as const), wait }),
  fc.record({
    kind: fc.constant('use' as const),
    // A careful user tests and warms first, so that many a use comes near to counting.
    careful: fc.boolean(),
    wait,
    contact: mostly(12, 11, 13, 40),
    rinses: mostly(3, 2, 4),
    water: mostly<'sterile' | 'filtered' | 'tap'>('sterile', 'filtered', 'tap'),
    alcoholAndAir: fc.boolean(),
    fullyImmersed: mostly(true, false),
    lumensFilled: mostly(true, false),
    cleanedAndDry: mostly(true, false),
    implant: mostly(false, true),
    claim: mostly<'disinfect' | 'sterilise'>('disinfect', 'sterilise'),
  }),
)
type Happening = typeof happening extends fc.Arbitrary<infer H> ? H : never

class Clerk {
  readonly record = new MemoryRecord()
  now = begin
  #ids = 0
  readonly events: (
    | ({ kind: 'strip' } & StripHeard)
    | { kind: 'topUp'; at: number }
    | { kind: 'use'; at: number; name: string; own: StripHeard | null }
  )[] = []

  async say<K extends KindName>(kind: K, body: Bodies[K]): Promise<Answer> {
    this.#ids += 1
    const id = `019d0000-0000-7000-8000-${String(this.#ids).padStart(12, '0')}` as EntryId
    const rest = { site: 'unit-a' as SiteId, by: 'person:ann', workstation: 'bench', happenedAt: instant(this.now) }
    return await this.record.decide({ id, kind, body, ...rest } as unknown as TypedSent)
  }
}

const strong = ({ result }: StripHeard) => result === 'pass' || (typeof result === 'object' && result.percent >= 0.3)

async function live(history: readonly Happening[]): Promise<{ clerk: Clerk; accepted: number }> {
  const clerk = new Clerk()
  const far = instant(begin + 400 * day)
  for (const lot of ['good', 'bad']) {
    await clerk.say('strip-bottle-opened', {
      lot: `lot:${lot}`,
      product: 'ortho-phthalaldehyde-0.55',
      number: lot,
      expiresAt: far,
      discardAt: far,
      fullStrength: { tried: 3, passed: 3 },
      halfStrength: { tried: 3, failed: lot === 'good' ? 3 : 2 },
    })
  }
  await clerk.say('bath-poured', {
    bath: 'bath:a',
    product: 'ortho-phthalaldehyde-0.55',
    lot: 'lot:can',
    place: 'Wash room',
    litres: 8,
    activatedAt: instant(begin),
    expiresAt: instant(begin + 20 * day),
  })
  let temperature: { at: number; celsius: number } | null = null
  let fresh: StripHeard | null = null
  let accepted = 0
  const warm = async (celsius: number) => {
    temperature = { at: clerk.now, celsius }
    await clerk.say('bath-warmed', { bath: 'bath:a', celsius: celsius as never })
  }
  const dip = async (heard: Omit<StripHeard, 'at'>) => {
    fresh = { ...heard, at: clerk.now }
    clerk.events.push({ kind: 'strip', ...fresh })
    await clerk.say('strip-read', {
      bath: 'bath:a',
      lot: `lot:${heard.bottle}`,
      result: heard.result,
      readAfterSeconds: heard.seconds,
    })
  }
  for (const [index, each] of history.entries()) {
    clerk.now += each.wait * minute + 1000
    if (each.kind === 'warm') await warm(each.celsius)
    else if (each.kind === 'strip') await dip(each)
    else if (each.kind === 'topUp') {
      fresh = null
      clerk.events.push({ kind: 'topUp', at: clerk.now })
      await clerk.say('bath-topped-up', { bath: 'bath:a', litres: 1, lot: 'lot:can' })
    } else {
      if (each.careful) {
        await warm(20)
        clerk.now += 1000
        await dip({ result: 'pass', seconds: 80, bottle: 'good' })
        clerk.now += 1000
      }
      const at = clerk.now
      const own = fresh as StripHeard | null
      const read = temperature as { at: number; celsius: number } | null
      const failedBefore = clerk.events.some((event) => event.kind === 'strip' && !strong(event))
      const { claim, fullyImmersed, lumensFilled, cleanedAndDry, implant, water, alcoholAndAir } = each
      const name = `use-${index}`
      const ids = { immersion: `immersion:${name}`, rounds: [`round:${name}`] } as const
      const seen = { claim, fullyImmersed, lumensFilled, cleanedAndDry, implant }
      await clerk.say('immersion-started', {
        immersion: ids.immersion,
        rounds: [...ids.rounds],
        bath: 'bath:a',
        how: 'manual',
        mycobacteriaSuspected: false,
        ...seen,
      })
      clerk.events.push({ kind: 'use', at, name, own })
      fresh = null
      clerk.now += each.contact * minute
      await clerk.say('immersion-ended', { immersion: ids.immersion })
      for (let rinse = 0; rinse < each.rinses; rinse += 1) {
        clerk.now += minute
        await clerk.say('bath-rinsed', {
          immersion: ids.immersion,
          water,
          alcoholAndAir,
          outlet: 'Sink 1',
          minutes: 1,
          litres: 8,
          lumenMillilitres: 100,
        })
      }
      const answer = await clerk.say('immersion-decided', {
        immersion: ids.immersion,
        rounds: [...ids.rounds],
        outcome: 'readyForUse',
        urological: false,
        bladderCancer: 'notKnown',
      })
      const may =
        claim === 'disinfect' &&
        !failedBefore &&
        own !== null &&
        strong(own) &&
        own.seconds >= 75 &&
        own.seconds <= 90 &&
        own.bottle === 'good' &&
        at - own.at <= 60 * minute &&
        read !== null &&
        read.celsius >= 20 &&
        at - read.at <= 60 * minute &&
        at + 12 * minute <= begin + 14 * day &&
        each.contact >= 12 &&
        fullyImmersed &&
        lumensFilled &&
        cleanedAndDry &&
        !implant &&
        each.rinses >= 3 &&
        (water !== 'tap' || alcoholAndAir)
      assert.equal(answer.kept, may, `${name}: ${JSON.stringify(answer.findings.map(({ rule }) => rule))}`)
      if (may) accepted += 1
    }
  }
  return { clerk, accepted }
}

/** Looks forward from each use by hand, with no list of what is open. */
function doubtedByHand(events: Clerk['events']): readonly string[] {
  const speaks = (strip: StripHeard | null) =>
    strip !== null && strong(strip) && strip.bottle === 'good' && strip.seconds >= 75 && strip.seconds <= 90
  return events.flatMap((use, index) => {
    if (use.kind !== 'use') return []
    const failed = (event: Clerk['events'][number]) => event.kind === 'strip' && !strong(event)
    if (events.slice(0, index).some(failed)) return [`immersion:${use.name}`]
    if (speaks(use.own)) return []
    const next = events
      .slice(index + 1)
      .find((event) => event.kind === 'topUp' || failed(event) || (event.kind === 'strip' && speaks(event)))
    return next?.kind === 'strip' && !failed(next) ? [] : [`immersion:${use.name}`]
  })
}

test('no immersion is ever accepted when a condition of its use fails, and a recall reaches what a recount reaches', async () => {
  let accepted = 0
  await fc.assert(
    fc.asyncProperty(fc.array(happening, { maxLength: 25 }), async (history) => {
      const lived = await live(history)
      accepted += lived.accepted
      const { record, events } = lived.clerk
      lived.clerk.now += minute
      await lived.clerk.say('bath-recalled', {
        recall: 'recall:a',
        bath: 'bath:a',
        why: 'A strip failed',
        wholeBath: false,
      })
      const extent = await recallExtent(record, 'recall:a', policyFrom(undefined))
      assert.deepEqual(
        extent?.loads.map((each) => each.load),
        doubtedByHand(events),
      )
      assert.deepEqual(
        extent?.packs.map((pack) => pack.round),
        doubtedByHand(events).map((id) => id.replace('immersion:', 'round:')),
      )
    }),
    { numRuns: 150, seed: 20_261_125 },
  )
  assert.ok(accepted > 50, `only ${accepted} uses counted: the histories are too hard`)
})
