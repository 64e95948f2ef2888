import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { MemoryRecord } from '../support/memory-record.ts'
import type { EntryId, SiteId } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import type { Bodies, KindName, TypedSent } from '#road/kinds.ts'
import { policyFrom } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import { recallExtent } from '#road/tracing/recall-extent.ts'

/*
 * Records are kept without asking the rules: what a recall reaches is a question about what happened, allowed or not.
 */

const begin = Date.parse('2026-03-01T08:00:00.000Z')

class Clerk {
  readonly record = new MemoryRecord()
  #count = 0

  keep<K extends KindName>(kind: K, body: Bodies[K]): void {
    this.#count += 1
    const id = `019d0000-0000-7000-8000-${String(this.#count).padStart(12, '0')}` as EntryId
    const happenedAt = instant(begin + this.#count * 60_000)
    const rest = { site: 'unit-a' as SiteId, by: 'person:ann', workstation: 'bench', happenedAt }
    this.record.keep({ id, kind, body, ...rest } as unknown as TypedSent)
  }

  lot(name: string, of: Bodies['lot-opened']['of']): SubjectId<'lot'> {
    const expiresAt = instant(begin + 400 * 86_400_000)
    this.keep('lot-opened', { lot: `lot:${name}`, of, name, number: name, expiresAt })
    return `lot:${name}`
  }

  round(name: string): SubjectId<'round'> {
    this.keep('reprocessing-started', { round: `round:${name}`, set: `set:${name}`, because: 'newSet' })
    return `round:${name}`
  }

  wash(name: string, rounds: SubjectId<'round'>[], lot?: SubjectId<'lot'>): void {
    const how = {
      kind: 'washer' as const,
      machine: 'machine:w' as const,
      program: 'P',
      takenApart: true,
      a0Seconds: 600,
    }
    this.keep('wash-recorded', {
      wash: `wash:${name}`,
      rounds,
      how,
      ...(lot === undefined ? {} : { detergent: { lot } }),
    })
  }

  seal(round: SubjectId<'round'>, wrapLot?: SubjectId<'lot'>): void {
    const plain = { wrap: 'doubleWrap' as const, insideIndicator: { type: '5' as const, lot: 'plain text' } }
    const rest = { outsideIndicator: null, counted: [], implant: false }
    this.keep('pack-sealed', { round, ...plain, ...rest, ...(wrapLot === undefined ? {} : { wrapLot }) })
  }

  load(name: string, rounds: SubjectId<'round'>[], chemicalLot?: SubjectId<'lot'>): SubjectId<'load'> {
    const load = {
      load: `load:${name}` as const,
      machine: 'machine:s' as const,
      program: '134',
      purpose: 'goods' as const,
    }
    this.keep('load-built', { ...load, rounds, ...(chemicalLot === undefined ? {} : { chemicalLot }) })
    return load.load
  }

  read(load: SubjectId<'load'>, lot: SubjectId<'lot'>): void {
    const control = { lot, fromLot: lot, result: 'growth' as const }
    this.keep('biological-read', { load, lot, fromLot: lot, result: 'noGrowth', control, incubatedHours: 24 })
  }

  async recall(lot: SubjectId<'lot'>) {
    this.keep('lot-recalled', { recall: 'recall:r', lot, why: 'notice of the maker' })
    const extent = await recallExtent(this.record, 'recall:r', policyFrom(undefined))
    assert.ok(extent)
    assert.equal(extent.failed, lot)
    const byRound = extent.packs.map((pack) => `${pack.round} ${pack.load} ${pack.duty}`).sort()
    return { extent, byRound }
  }
}

test('a wrap recalls the packs sealed in it, in and out of a load, and no others', async () => {
  const clerk = new Clerk()
  const bad = clerk.lot('bad', 'wrap')
  const good = clerk.lot('good', 'wrap')
  const [a, b, c] = ['a', 'b', 'c'].map((name) => clerk.round(name)) as [never, never, never]
  clerk.seal(a, bad)
  clerk.seal(b, good)
  clerk.seal(c, bad)
  clerk.load('1', [a, b])
  const { byRound } = await clerk.recall(bad)
  assert.deepEqual(byRound, ['round:a lot:bad recall', 'round:c lot:bad recall'])
})

test('a detergent recalls what it washed, but not what was washed again since', async () => {
  const clerk = new Clerk()
  const bad = clerk.lot('bad', 'detergent')
  const [a, b] = [clerk.round('a'), clerk.round('b')]
  clerk.wash('1', [a, b], bad)
  clerk.wash('2', [b])
  const { byRound, extent } = await clerk.recall(bad)
  assert.deepEqual(byRound, ['round:a wash:1 recall'])
  assert.deepEqual(
    extent.loads.map((each) => each.load),
    ['wash:1'],
  )
})

test('an indicator recalls the loads whose proof rested on it, and clears those that another lot proves', async () => {
  const clerk = new Clerk()
  const bad = clerk.lot('bad', 'biologicalIndicator')
  const good = clerk.lot('good', 'biologicalIndicator')
  const [a, b] = [clerk.round('a'), clerk.round('b')]
  const [one, two] = [clerk.load('1', [a]), clerk.load('2', [b])]
  clerk.read(one, bad)
  clerk.read(two, bad)
  clerk.read(two, good)
  const { byRound } = await clerk.recall(bad)
  assert.deepEqual(byRound, ['round:a load:1 recall', 'round:b load:2 cleared'])
})

test('a gas cartridge recalls its loads; a filter of an outlet what it rinsed until the next filter', async () => {
  const clerk = new Clerk()
  const gas = clerk.lot('gas', 'gasCartridge')
  clerk.load('1', [clerk.round('a')], gas)
  assert.deepEqual((await clerk.recall(gas)).byRound, ['round:a load:1 recall'])

  const other = new Clerk()
  const [first, second] = [other.lot('f1', 'waterFilter'), other.lot('f2', 'waterFilter')]
  const outlet = { outlet: 'outlet:o', name: 'Rinse', use: 'finalRinse', treatment: 'none' } as const
  const how = { kind: 'washer', machine: 'machine:w', program: 'P', takenApart: true, a0Seconds: 600 } as const
  other.keep('outlet-registered', { ...outlet, filterFromLot: first })
  other.keep('wash-recorded', { wash: 'wash:1', rounds: [other.round('a')], outlets: ['outlet:o'], how })
  other.keep('outlet-registered', { ...outlet, filterFromLot: second })
  other.keep('wash-recorded', { wash: 'wash:2', rounds: [other.round('b')], outlets: ['outlet:o'], how })
  assert.deepEqual((await other.recall(first)).byRound, ['round:a wash:1 recall'])
})

test('a filter of an outlet recalls what was rinsed there after a bath, until the filter was changed', async () => {
  const clerk = new Clerk()
  const [first, second] = [clerk.lot('f1', 'waterFilter'), clerk.lot('f2', 'waterFilter')]
  const rinse = { water: 'filtered', minutes: 1, litres: 8, lumenMillilitres: null, alcoholAndAir: false } as const
  const contact = { claim: 'disinfect', how: 'manual', fullyImmersed: true, lumensFilled: true } as const
  for (const [name, filter] of [
    ['a', first],
    ['b', second],
  ] as const) {
    clerk.keep('lot-used', { lot: filter, for: 'outlet:o' })
    const immersion = `immersion:${name}` as const
    const rounds = [clerk.round(name)]
    const cleaned = { cleanedAndDry: true, implant: false, mycobacteriaSuspected: false }
    clerk.keep('immersion-started', { immersion, bath: 'bath:1', rounds, ...contact, ...cleaned })
    clerk.keep('bath-rinsed', { immersion, outlet: 'outlet:o', ...rinse })
  }
  assert.deepEqual((await clerk.recall(first)).byRound, ['round:a immersion:a recall'])
})

test('a lot that is only written as text links nothing', async () => {
  const clerk = new Clerk()
  const lot = clerk.lot('plain', 'chemicalIndicator')
  clerk.seal(clerk.round('a'))
  const { extent } = await clerk.recall(lot)
  assert.deepEqual(extent.packs, [])
})

test('whatever happened to some packs, the recall of a lot finds the packs that still owe something to it', async () => {
  const happening = fc.record({
    what: fc.constantFrom('wash', 'seal', 'load'),
    pack: fc.integer({ min: 0, max: 3 }),
    bad: fc.boolean(),
  })
  await fc.assert(
    fc.asyncProperty(fc.array(happening, { maxLength: 24 }), async (history) => {
      const clerk = new Clerk()
      const bad = clerk.lot('bad', 'wrap')
      const rounds = [0, 1, 2, 3].map((each) => clerk.round(String(each)))
      const touched = new Map<string, { wash: boolean; seal: boolean; load: boolean }>()
      for (const [index, each] of history.entries()) {
        const round = rounds[each.pack] as SubjectId<'round'>
        const lot = each.bad ? bad : undefined
        const before = touched.get(round) ?? { wash: false, seal: false, load: false }
        if (each.what === 'wash') clerk.wash(String(index), [round], lot)
        if (each.what === 'seal') clerk.seal(round, lot)
        if (each.what === 'load') clerk.load(String(index), [round], lot)
        touched.set(round, {
          wash: each.what === 'wash' ? each.bad : before.wash,
          seal: each.what === 'seal' ? each.bad || before.seal : each.what === 'wash' ? false : before.seal,
          load: each.what === 'load' ? each.bad : before.load,
        })
      }
      const expected = [...touched].flatMap(([round, uses]) => (uses.wash || uses.seal || uses.load ? [round] : []))
      const { extent } = await clerk.recall(bad)
      assert.deepEqual(extent.packs.map((pack) => pack.round).sort(), expected.sort())
    }),
  )
})
