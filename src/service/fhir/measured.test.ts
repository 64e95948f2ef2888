import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '#road/policy.ts'
import { at, knownAs, step } from '#road/rule-harness.ts'
import { noLotKnown } from '#road/sterilising/incubation.ts'
import { wantedIncubation } from '#road/sterilising/wanted-incubation.ts'
import { observationsOf } from './measured.ts'

/* HL7 FHIR R4, Observation.interpretation: NEG would tell a reader that the indicator is negative. */

const wanted = wantedIncubation({ type: 'steamSteriliser' }, policyFrom(undefined), noLotKnown)
const grown = { lot: 'B1', result: 'growth' } as const

for (const { name, read, interpretation } of [
  { name: 'valid', read: { result: 'noGrowth', control: grown, incubatedHours: 48 }, interpretation: 'NEG' },
  {
    name: 'with a dead control',
    read: { result: 'noGrowth', control: { lot: 'B1', result: 'noGrowth' }, incubatedHours: 48 },
    interpretation: undefined,
  },
  {
    name: 'without a control',
    read: { result: 'noGrowth', control: null, incubatedHours: 48 },
    interpretation: undefined,
  },
  { name: 'read early', read: { result: 'noGrowth', control: grown, incubatedHours: 1 }, interpretation: undefined },
  { name: 'growth', read: { result: 'growth', control: null, incubatedHours: 1 }, interpretation: 'POS' },
] as const)
  test(`observationsOf: a biological reading, ${name}`, () => {
    const load = knownAs('load', 'load:a', {
      machine: 'machine:a',
      biological: [step('08:00', { lot: 'B1', ...read })],
    })
    const [observation] = observationsOf(load, at('09:00'), wanted)
    const text = JSON.stringify(observation)
    assert.match(text, new RegExp(`"code":"${read.result}"`))
    if (interpretation === undefined) assert.doesNotMatch(text, /interpretation/i)
    else assert.match(text, new RegExp(`"interpretation":\\[\\{"coding":\\[\\{[^\\]]*"code":"${interpretation}"`))
  })
