import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Celsius } from '#units/quantities.ts'
import { type LoadGas, noGas } from '../gases/load-gas.ts'
import { policyFrom } from '../policy.ts'
import { at, knownAs, step } from '../rule-harness.ts'
import { aerationClocks } from './aeration-clocks.ts'

test('aeration-clocks: the listed time at the set temperature, the maker’s longer time, and none once ended', () => {
  const endsAt = (setC: number, rest: { makerHours?: number; ended?: boolean } = {}) => {
    const { makerHours, ended = false } = rest
    const aeration = step('08:00', {
      place: 'aerator' as const,
      setC: setC as Celsius,
      ...(makerHours === undefined ? {} : { makerHours }),
    })
    const aerated = ended ? step('20:00', { lowestC: setC as Celsius }) : null
    const load = knownAs('load', 'load:1', { gas: { ...noGas, aeration, aerated } })
    const facts = { policy: policyFrom(undefined), immersions: [], baths: [], loads: [load] }
    return aerationClocks(facts).map((clock) => clock.endsAt.slice(5, 16))
  }
  assert.deepEqual(endsAt(60), ['11-25T16:00'])
  assert.deepEqual(endsAt(55), ['11-25T20:00'])
  assert.deepEqual(endsAt(60, { makerHours: 20 }), ['11-26T04:00'])
  assert.deepEqual(endsAt(15), [])
  assert.deepEqual(endsAt(60, { ended: true }), [])
})

test('an aeration between listed pairs runs to the listed time, with the time between as advice', () => {
  const aeration = step('08:00', { place: 'aerator' as const, setC: 55 as Celsius })
  const clocksOf = (gas: Partial<LoadGas>) => {
    const loads = [knownAs('load', 'load:1', { gas: { ...noGas, ...gas } })]
    return aerationClocks({ policy: policyFrom(undefined), immersions: [], baths: [], loads })
  }
  const [clock] = clocksOf({ aeration })
  assert.equal(clock?.endsAt, at('20:00'))
  assert.equal(clock?.advice?.hours.toFixed(1), '9.8')
  assert.ok(clock !== undefined && clock.advice !== undefined && clock.advice.at < clock.endsAt)
  const listed = step('08:00', { place: 'aerator' as const, setC: 50 as Celsius })
  assert.equal(clocksOf({ aeration: listed })[0]?.advice, undefined)
  assert.deepEqual(clocksOf({ stopped: step('10:00', { cause: 'power' as const }) }), [], 'interrupted: no clock')
})
