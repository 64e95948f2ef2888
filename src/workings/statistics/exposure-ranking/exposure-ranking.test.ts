import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { dataSetNamed } from '../data-sets/data-sets.ts'
import { exposureRankingWorking } from './exposure-ranking.ts'
import { notFirstOnTheList, rinseWater } from './published-outbreaks.suite.ts'
import { ranked } from './ranked.suite.ts'

const foods = [
  'baked.ham',
  'spinach',
  'mashed.potato',
  'cabbage.salad',
  'jello',
  'rolls',
  'brown.bread',
  'milk',
  'coffee',
  'water',
  'cakes',
  'vanilla.ice.cream',
  'chocolate.ice.cream',
  'fruit.salad',
]

// US CDC training case: 43 of 54 against 3 of 21.
test('exposure-ranking names the vanilla ice cream of Oswego, and nothing else', () => {
  const cases = (dataSetNamed('oswego') ?? []).map((row, index) => ({
    id: `P${index}`,
    date: '1940-04-18',
    infected: row['ill'] === 'Y',
    exposures: foods.filter((food) => row[food] === 'Y').map((id) => ({ type: 'food', id })),
  }))
  const { conclusion, ranked: list, infected } = ranked({ cases })
  assert.equal(infected, 46)
  assert.equal(conclusion, 'association')
  const [first, second] = list
  assert.partialDeepStrictEqual(first, {
    id: 'vanilla.ice.cream',
    casesExposed: 43,
    nonCasesExposed: 11,
    casesUnexposed: 3,
  })
  assert.ok(Math.abs((first?.p ?? 1) - 2.597_450_69e-7) < 1e-14)
  assert.ok((first?.familyWiseP ?? 1) <= 0.001)
  assert.ok((second?.familyWiseP ?? 0) > 0.05)
})

for (const seed of [1, 2, 3, 4, 5]) {
  test(`exposure-ranking names "not first on the list" of the laparoscopy outbreak, made with seed ${seed}`, () => {
    const result = ranked({ cases: notFirstOnTheList(seed), seed })
    const [first] = result.ranked
    assert.equal(result.infected, 60)
    assert.equal(first?.name, 'list not first')
    // The printed odds ratios; the conditional estimate is a little nearer to 1 than that of the cells.
    for (const [name, printed] of [
      ['list not first', 2.7],
      ['duration over 1 h', 2.4],
      ['instrument permanent trocar', 2.2],
    ] as const) {
      const found = result.ranked.find((one) => one.name === name)?.oddsRatio
      assert.ok(typeof found === 'number' && Math.abs(found - printed) < 0.06, `${name} ${found}`)
    }
    assert.ok((first?.familyWiseP ?? 1) <= 0.05, String(first?.familyWiseP))
    assert.equal(result.conclusion, 'association')
    assert.equal(result.organism.kind, 'acidFast')
  })

  test(`exposure-ranking names the rinse water, not the baths, made with seed ${seed}`, () => {
    const result = ranked({ cases: rinseWater(seed), seed })
    assert.equal(result.infected, 35)
    assert.equal(result.ranked[0]?.name, 'rinse tap of room 2')
    assert.equal(result.conclusion, 'association')
    assert.equal(result.organism.kind, 'lateAcidFast')
    assert.deepEqual(result.organism.types, ['bath', 'rinse'])
  })
}

function madeCases(
  exposures: (index: number) => readonly { type: string; id: string; amount?: number; flags?: string[] }[],
) {
  return Array.from({ length: 60 }, (_, index) => ({
    id: `C${index}`,
    date: '2026-05-04',
    infected: index < 6,
    exposures: exposures(index),
  }))
}

test('exposure-ranking cannot tell two things that the same cases met, and says which sample would', () => {
  const result = ranked({
    cases: madeCases((index) =>
      index < 10
        ? [
            { type: 'bath', id: 'B1' },
            { type: 'person', id: 'P1' },
          ]
        : [],
    ),
    findings: [{ type: 'person', id: 'P1', says: 'Gloves not changed' }],
  })
  assert.equal(result.conclusion, 'cannotTell')
  assert.match(result.reason, /cannot tell which. Sample bath B1/)
  assert.deepEqual(result.alike[0]?.members.toSorted(), ['bath B1', 'person P1'])
  // Equal figures: the finding orders them, and changes none.
  assert.equal(result.ranked[0]?.name, 'person P1')
  assert.equal(result.ranked[0]?.p, result.ranked[1]?.p)
})

test('exposure-ranking lets a finding lift nothing over better figures', () => {
  const cases = madeCases((index) => [
    { type: 'bath', id: index < 12 ? 'B1' : 'B2' },
    { type: 'tap', id: index % 2 ? 'T1' : 'T2' },
  ])
  const findings = Array.from({ length: 9 }, () => ({ type: 'tap', id: 'T1', says: 'Filter old' }))
  const with9 = ranked({ cases, findings })
  assert.equal(with9.ranked[0]?.name, 'bath B1')
  assert.deepEqual(
    with9.ranked.map(({ name, p, familyWiseP }) => ({ name, p, familyWiseP })),
    ranked({ cases }).ranked.map(({ name, p, familyWiseP }) => ({ name, p, familyWiseP })),
  )
})

test('exposure-ranking finds a condition of baths that no single bath shows, and the trend of their age', () => {
  const result = ranked({
    cases: madeCases((index) => {
      const old = index < 6 || index % 9 === 0
      return [
        {
          type: 'bath',
          id: `B${index % 12}`,
          amount: old ? 20 + (index % 3) : index % 10,
          flags: old ? ['older than its limit'] : [],
        },
      ]
    }),
  })
  assert.equal(result.ranked[0]?.name, 'bath: older than its limit')
  assert.equal(result.conclusion, 'association')
  assert.equal(result.trends[0]?.type, 'bath')
  assert.ok((result.trends[0]?.p ?? 1) < 0.01)
})

test('exposure-ranking takes no season for a cause', () => {
  // All infections fall in May, and so does the use of B1; within the month the bath makes no difference.
  const cases = Array.from({ length: 80 }, (_, index) => ({
    id: `C${index}`,
    date: index < 40 ? '2026-05-04' : '2026-06-04',
    infected: index < 40 && index % 4 === 0,
    exposures: index < 40 && index % 10 < 9 ? [{ type: 'bath', id: 'B1' }] : [{ type: 'bath', id: 'B2' }],
  }))
  assert.equal(ranked({ cases }).conclusion, 'cannotTell')
  const oneStratum = cases.map((one) => ({ ...one, stratum: 'all' }))
  assert.equal(ranked({ cases: oneStratum }).conclusion, 'association')
})

test('exposure-ranking says why it cannot tell', () => {
  const all = madeCases(() => [{ type: 'bath', id: 'B1' }])
  assert.match(ranked({ cases: all }).reason, /No exposure was met by some cases/)
  assert.deepEqual(ranked({ cases: all }).notCompared, ['bath B1'])
  assert.match(ranked({ cases: all.map((one) => ({ ...one, infected: false })) }).reason, /No case is infected/)
  assert.match(ranked({ cases: all.map((one) => ({ ...one, infected: true })) }).reason, /Every case is infected/)
  assert.equal(exposureRankingWorking.run({ cases: [...all, ...all] }).kind, 'unusable')
})

const lineList = fc
  .array(
    fc.record({
      infected: fc.boolean(),
      month: fc.constantFrom('01', '02'),
      met: fc.uniqueArray(fc.constantFrom('A', 'B', 'C', 'D'), { maxLength: 4 }),
      amount: fc.integer({ min: 0, max: 5 }),
    }),
    { minLength: 2, maxLength: 30 },
  )
  .map((rows) =>
    rows.map(({ infected, month, met, amount }, index) => ({
      id: `C${index}`,
      date: `2026-${month}-10`,
      infected,
      exposures: met.map((id) => ({ type: 'load', id, amount })),
    })),
  )

/** Two exposures that mirror each other over the months: their p are the same, summed in another order. */
const mirrored = fc
  .record({
    cases: fc.integer({ min: 2, max: 11 }),
    infected: fc.integer({ min: 1, max: 11 }),
    months: fc.array(fc.record({ exposed: fc.nat(11), both: fc.nat(11) }), { minLength: 2, maxLength: 3 }),
  })
  .map(({ cases, infected, months }) => {
    const sick = Math.min(infected, cases)
    const met = ({ exposed, both }: { exposed: number; both: number }, place: number) => {
      const a = Math.min(both, exposed, sick)
      return place < sick ? place < a : place - sick < exposed - a
    }
    return months.flatMap((one, month) =>
      Array.from({ length: cases }, (_, place) => ({
        id: `C${month}-${place}`,
        date: `2026-0${month + 1}-10`,
        infected: place < sick,
        exposures: [
          ...(met(one, place) ? [{ type: 'load', id: 'A' }] : []),
          ...(met(months.at(-1 - month) ?? one, place) ? [{ type: 'load', id: 'B' }] : []),
        ],
      })),
    )
  })

test('exposure-ranking: the family is never surer than the one, and p rises down the list', () => {
  fc.assert(
    fc.property(fc.oneof(lineList, mirrored), (cases) => {
      const list = ranked({ cases, permutations: 199 }).ranked
      for (const [index, one] of list.entries()) {
        assert.ok(one.familyWiseP >= one.p)
        assert.ok(one.familyWiseP >= (list[index - 1]?.familyWiseP ?? 0))
      }
    }),
    { numRuns: 200 },
  )
})

test('exposure-ranking: exposures that mirror each other over the months have one p, to the last digit', () => {
  fc.assert(
    fc.property(mirrored, (cases) => {
      const [first, second, ...more] = ranked({ cases, permutations: 199 }).ranked
      assert.equal(more.length, 0)
      if (first === undefined || second === undefined) return
      assert.deepEqual([first.p, first.familyWiseP], [second.p, second.familyWiseP])
      assert.deepEqual([first.id, second.id], ['A', 'B'])
    }),
    { numRuns: 200 },
  )
})

test('exposure-ranking: nothing hangs on the order of the cases', () => {
  fc.assert(
    fc.property(lineList, fc.infiniteStream(fc.nat()), (cases, keys) => {
      const mixed = cases
        .map((one) => ({ one, key: keys.next().value ?? 0 }))
        .sort((a, b) => a.key - b.key)
        .map(({ one }) => one)
      assert.deepEqual(ranked({ cases: mixed, permutations: 199 }), ranked({ cases, permutations: 199 }))
    }),
    { numRuns: 50 },
  )
})
