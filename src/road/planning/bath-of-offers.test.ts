import assert from 'node:assert/strict'
import { test } from 'node:test'
import { longEnough, warmEnough } from '../baths/bath-use.ts'
import { policyWith } from '../baths/decide-use.ts'
import { bathContactBasis, bathProducts, contactOf } from '../baths/products.ts'
import { agentOf } from '../catalogue/offers-of-unit.ts'
import { type Instant, instant, millis } from '../instant.ts'
import type { KnownOf } from '../known.ts'
import { knownAs, step } from '../rule-harness.ts'
import { bathOfOffers } from './bath-of-offers.ts'
import { waysOfType } from './ways-of-type.ts'

const now = '2026-11-25T12:00:00.000Z' as Instant
const later = (minutes: number): Instant => instant(millis(now) + minutes * 60_000)
const policy = policyWith()
const claims = [
  ['disinfect', 'bathDisinfect'],
  ['sterilise', 'bathSterilise'],
] as const

function bathOf(key: string, product: KnownOf<'bath'>['product'], rest: Partial<KnownOf<'bath'>> = {}) {
  const lasts = { activatedAt: later(-60), expiresAt: later(300 * 1440) }
  return knownAs('bath', `bath:${key}`, { product, place: `tray ${key}`, litres: 8, ...lasts, ...rest })
}

const factsOf = (baths: readonly KnownOf<'bath'>[], values: Parameters<typeof policyWith>[0] = {}) => ({
  policy: policyWith(values),
  baths,
  day: '2026-11-26',
  now,
  unit: { timeZone: 'UTC' },
})

const opa = 'ortho-phthalaldehyde-0.55'
const disinfectInOpa = { method: 'bathDisinfect', owned: true, agent: 'orthoPhthalaldehyde' } as const
const measured = (celsius: number) => step('11:50', { celsius })

for (const basis of ['label', 'society'] as const) {
  test(`the plan goes by the contact that the judge of an immersion asks for, of every product, by ${basis}`, () => {
    let asked = 0
    for (const product of bathProducts) {
      for (const [claim, method] of claims) {
        const facts = factsOf([bathOf('b', product.id)], { [bathContactBasis.id]: basis })
        const found = bathOfOffers(facts, [{ method, owned: true, agent: agentOf[product.family] }])
        const contact = contactOf(product, claim, 'manual', facts.policy)
        assert.equal(found === null, contact === null, product.id)
        if (found === null || contact === null) continue
        const after = (minutes: number) => ({
          product,
          claim,
          how: 'manual' as const,
          at: later(minutes),
          activatedAt: later(-60),
          expiresAt: later(300 * 1440),
          strip: 'pass' as const,
          temperatureC: facts.policy.limit(contact.celsius).value,
          immersedAt: now,
          removedAt: later(minutes),
          fullyImmersed: true,
          lumensFilled: true,
          cleanedAndDry: true,
        })
        const enough = longEnough(after(found.contactMinutes), facts.policy)
        assert.deepEqual(enough, [], product.id)
        const short = longEnough(after(found.contactMinutes - 1), facts.policy)
        assert.deepEqual(
          short.map(({ weight }) => weight),
          ['stop'],
          product.id,
        )
        assert.deepEqual(warmEnough(after(found.contactMinutes), facts.policy), [])
        asked += 1
      }
    }
    assert.ok(asked > 15, `${asked} contacts were asked for`)
  })
}

test('given a contact time that the unit changed, then the plan goes by it', () => {
  const values = { [`bath-${opa}-disinfect-manual-minutes`]: 20 }
  assert.equal(bathOfOffers(factsOf([bathOf('b', opa)], values), [disinfectInOpa])?.contactMinutes, 20)
})

test('given a bath that was measured too cold, then it is planned with only when no other is there, and that is told', () => {
  // Ortho-phthalaldehyde 0.55 % by hand: 12 min at 20 °C at the least (CDC Guideline 2008, Table 4).
  const cold = bathOf('a', opa, { temperature: measured(17) })
  const warm = bathOf('b', opa, { temperature: measured(20) })
  const told = (baths: readonly KnownOf<'bath'>[]) => {
    const found = bathOfOffers(factsOf(baths), [disinfectInOpa])
    return [found?.pool.id, found?.notes.filter(({ weight }) => weight === 'caution').map(({ says }) => says)]
  }
  assert.deepEqual(told([cold, warm]), ['Bath, tray b', []])
  assert.deepEqual(told([cold]), [
    'Bath, tray a',
    [
      'Bath, tray a: it was 17 °C when it was last measured, and nothing may go in below 20 °C. Warm it before the first use.',
    ],
  ])
  assert.deepEqual(
    told([bathOf('a', opa)]),
    ['Bath, tray a', []],
    'one that nobody measured yet is measured before use',
  )
})

test('given a bath whose life ends before the day does, then one that lasts goes before it', () => {
  const old = bathOf('a', opa, { activatedAt: later(-14 * 1440) })
  const found = bathOfOffers(factsOf([old, bathOf('b', opa)]), [disinfectInOpa])
  assert.equal(found?.pool.id, 'Bath, tray b')
  assert.match(
    bathOfOffers(factsOf([old]), [disinfectInOpa])?.notes[1]?.says ?? '',
    /its life ends on 2026-11-25 at 12:00. Pour a fresh one/,
  )
})

test('what ends the life of a bath is told by the clock of the unit, and by what ends it', () => {
  const notesOf = (rest: Parameters<typeof bathOf>[2], timeZone: string, places = 1) => {
    const facts = { ...factsOf([bathOf('a', opa, rest)], { 'plan-bath-places': places }), unit: { timeZone } }
    return bathOfOffers(facts, [disinfectInOpa])?.notes ?? []
  }
  const { limit } = policy
  const days = limit(bathProducts.find(({ id }) => id === opa)?.reuseDays ?? assert.fail('it has some'))
  const [planned, used] = notesOf({ activatedAt: later(-13 * 1440) }, 'Asia/Kolkata')
  assert.match(planned?.says ?? '', /planned for one set at once/)
  assert.match(notesOf({}, 'UTC', 3)[0]?.says ?? '', /planned for 3 sets at once/)
  // 14 days of use from 12 November, 12:00 UTC; India is 5 h 30 min ahead of it.
  assert.match(used?.says ?? '', /its life ends on 2026-11-26 at 17:30\./)
  assert.deepEqual(used?.source, days.source)
  const [, printed] = notesOf({ expiresAt: later(600) }, 'Asia/Kolkata')
  assert.match(printed?.says ?? '', /its life ends on 2026-11-26 at 03:30\./)
  assert.match(printed?.source.clause ?? '', /expiry printed on the container/)
  // A time zone that nobody knows is UTC, as everywhere.
  assert.match(notesOf({ expiresAt: later(600) }, 'No/Where')[1]?.says ?? '', /on 2026-11-25 at 22:00\./)
})

test('given a bath whose strip read below its smallest strength, then nothing is planned through it', () => {
  const { limit } = policy
  const minimum = bathProducts.find(({ id }) => id === opa)?.minimumPercent ?? assert.fail('it has one')
  const read = (percent: number) => ({
    ...step('11:40', { lot: 'lot:s' as const, result: { percent }, readAfterSeconds: 90 }),
  })
  const weak = bathOf('a', opa, { strips: [read(limit(minimum).value - 0.01)] })
  assert.equal(bathOfOffers(factsOf([weak]), [disinfectInOpa]), null)
  const strong = bathOf('a', opa, { strips: [read(limit(minimum).value)] })
  assert.equal(bathOfOffers(factsOf([strong]), [disinfectInOpa])?.contactMinutes, 12)
})

test('given baths of two agents that are both allowed, then the plan goes by the shorter contact', () => {
  const device = knownAs('device', 'device:scope', {
    name: 'Telescope',
    contact: 'semiCritical',
    steam: 'barred',
    optic: true,
    materials: ['glass', 'stainlessSteel'],
    immersible: true,
    moistureStable: true,
    makerMethods: [{ method: 'bathDisinfect' }],
  })
  const set = knownAs('set', 'set:1', { name: 'Scope 1', countSheet: [{ device: 'device:scope', count: 1 }] })
  for (const products of [
    ['glutaraldehyde-2.4', opa],
    [opa, 'glutaraldehyde-2.4'],
  ] as const) {
    const facts = { ...factsOf(products.map((product, index) => bathOf(`${index}`, product))), machines: [] }
    const ways = waysOfType({ ...facts, devices: [device] }, { name: 'Scope', sets: [set] })
    assert.ok(ways.taken !== null, ways.notes.map(({ says }) => says).join())
    // Glutaraldehyde 2.4 % by hand: 45 min at 25 °C; ortho-phthalaldehyde 0.55 %: 12 min at 20 °C (CDC Guideline 2008, Table 4).
    assert.equal(bathOfOffers(facts, [ways.taken, ...ways.alike])?.contactMinutes, 12)
  }
})
