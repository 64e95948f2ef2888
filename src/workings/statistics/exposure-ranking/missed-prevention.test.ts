import assert from 'node:assert/strict'
import { test } from 'node:test'
import { seededGenerator } from '../special/seeded-generator.ts'
import { ranked } from './ranked.suite.ts'

/*
 * A measure that was not done is an exposure like any other. The hernia repairs here are made up; each exact p is the tail of
 * the hypergeometric distribution (Fisher 1935; US CDC, Principles of Epidemiology, lesson 3, names the exact test), by hand.
 */

const gloves = { type: 'missedPrevention', id: 'glovesChangedBeforeImplant' }
const warmth = { type: 'missedPrevention', id: 'warmth' }

interface Repair {
  readonly infected: boolean
  readonly missed: readonly { readonly type: string; readonly id: string }[]
  readonly surgeon?: string
  readonly procedure?: string
}

const asCases = (repairs: readonly Repair[]) =>
  repairs.map(({ infected, missed, surgeon, procedure = 'inguinalHernia' }, index) => ({
    id: `C${String(index).padStart(3, '0')}`,
    date: '2026-05-04',
    procedure,
    infected,
    exposures: [
      { type: 'surgeon', id: surgeon ?? `S${index % 3}` },
      { type: 'set', id: `hernia-${index % 7}` },
      { type: 'load', id: `a-${index % 10}` },
      ...missed,
    ],
  }))

test('a planted "gloves not changed before the implant" is ranked first, with the interval that so few cases allow', () => {
  // Seven of forty repairs; four of the five infected are among them.
  const cases = asCases(
    Array.from({ length: 40 }, (_, index) => ({
      infected: index < 4 || index === 20,
      missed: [...(index < 7 ? [gloves] : []), ...(index % 5 === 0 ? [warmth] : [])],
    })),
  )
  const { ranked: list, conclusion, reason } = ranked({ cases })
  const [first] = list
  assert.equal(first?.name, 'missedPrevention glovesChangedBeforeImplant')
  assert.partialDeepStrictEqual(first, {
    casesExposed: 4,
    casesUnexposed: 1,
    nonCasesExposed: 3,
    nonCasesUnexposed: 32,
  })
  // P(X >= 4) = [C(7,4) C(33,1) + C(7,5)] / C(40,5) = (1155 + 21) / 658008.
  assert.ok(Math.abs(first.p - 1176 / 658_008) < 1e-12, String(first.p))
  assert.ok(first.familyWiseP >= first.p && first.familyWiseP < 0.05, String(first.familyWiseP))
  const [low, high] = first.oddsRatioLimits
  assert.ok(
    low > 1 && typeof high === 'number' && high / low > 50,
    `${low} to ${high}: five infections cannot say how much`,
  )
  assert.equal(conclusion, 'association')
  assert.match(reason, /An association is not a proof/)
})

test('two infections are too few: the missed measure may come first, and the data cannot tell', () => {
  const {
    conclusion,
    reason,
    ranked: list,
  } = ranked({
    cases: asCases(
      Array.from({ length: 40 }, (_, index) => ({
        infected: index === 0 || index === 5,
        missed: index < 7 ? [gloves] : [],
      })),
    ),
  })
  assert.equal(list[0]?.id, gloves.id)
  // C(7,2) / C(40,2) = 21 / 780 alone, and more than 0.05 over all that was looked at.
  assert.ok(Math.abs((list[0]?.p ?? 0) - 21 / 780) < 1e-12)
  assert.equal(conclusion, 'cannotTell')
  assert.match(reason, /could well be chance/)
})

test('a measure that only one surgeon leaves out cannot be told from the surgeon', () => {
  const { conclusion, alike } = ranked({
    cases: asCases(
      Array.from({ length: 60 }, (_, index) => ({
        infected: index < 7,
        surgeon: index < 12 ? 'S9' : `S${index % 3}`,
        missed: index < 12 ? [gloves] : [],
      })),
    ),
  })
  assert.equal(conclusion, 'cannotTell')
  assert.deepEqual(alike[0]?.members.toSorted(), ['missedPrevention glovesChangedBeforeImplant', 'surgeon S9'])
  assert.equal(alike[0]?.test.kind, 'mendOne')
  assert.match(alike[0]?.test.says ?? '', /^Put right missedPrevention glovesChangedBeforeImplant/)
})

test('the test that would tell two missed measures apart leaves no patient without either', () => {
  const { conclusion, alike } = ranked({
    cases: asCases(
      Array.from({ length: 60 }, (_, index) => ({ infected: index < 7, missed: index < 12 ? [gloves, warmth] : [] })),
    ),
  })
  assert.equal(conclusion, 'cannotTell')
  assert.equal(alike[0]?.test.kind, 'doBoth')
  assert.match(alike[0]?.test.says ?? '', /Do both from now on/)
})

test('a measure that is missed in one kind of operation alone is not made suspect by the rate of that operation', () => {
  // Bowel is infected in 10 of 20, hernia in 1 of 40; the protector is asked of bowel only, and makes no difference there.
  const protector = { type: 'missedPrevention', id: 'woundProtector' }
  const { ranked: list, conclusion } = ranked({
    cases: asCases([
      ...Array.from({ length: 20 }, (_, index) => ({
        infected: index % 2 === 0,
        procedure: 'colectomy',
        missed: index < 10 ? [protector] : [],
      })),
      ...Array.from({ length: 40 }, (_, index) => ({ infected: index === 0, missed: [] })),
    ]),
  })
  const found = list.find(({ id }) => id === protector.id)
  assert.ok(found !== undefined && found.p > 0.5 && found.familyWiseP > 0.9, JSON.stringify(found))
  assert.equal(found.strataThatTell, 1)
  assert.equal(conclusion, 'cannotTell')
})

test('over many made-up half years a planted miss is named often, and one that does nothing rarely', () => {
  const yearOf = (seed: number, rateMissed: number) => {
    const dice = seededGenerator(seed)
    return asCases(
      Array.from({ length: 120 }, () => {
        const missed = dice.next() < 0.12
        const cold = dice.next() < 0.1
        return {
          infected: dice.next() < (missed ? rateMissed : 0.02),
          surgeon: `S${dice.below(4)}`,
          missed: [...(missed ? [gloves] : []), ...(cold ? [warmth] : [])],
        }
      }),
    )
  }
  const seeds = Array.from({ length: 100 }, (_, index) => index + 1)
  const named = (rate: number) =>
    seeds.filter((seed) => {
      const { conclusion, ranked: list } = ranked({ cases: yearOf(seed, rate), permutations: 999 })
      return conclusion === 'association' && list[0]?.id === gloves.id
    }).length
  const [planted, idle] = [named(0.5), named(0.02)]
  assert.ok(planted >= 90, `named in ${planted} of 100`)
  assert.ok(idle <= 5, `named in ${idle} of 100 though it did nothing`)
})
