import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '../policy.ts'
import { at, entered, findingsOf, knownAs } from '../rule-harness.ts'
import { noLotKnown } from './incubation.ts'
import { invalidReading } from './invalid-reading.ts'
import { biologicalControlGrew } from './rules/biological-control-grew.ts'
import { biologicalIncubated } from './rules/biological-incubated.ts'
import { wantedIncubation } from './wanted-incubation.ts'

/*
 * A control of the same lot must grow, else the result is invalid (CDC, MMWR 52 RR-17, 2003, Guidelines for Infection Control in Dental
 * Health-Care Settings, on monitoring of sterilization). What the rules say of a reading is said of it everywhere.
 */

const machine = knownAs('machine', 'machine:a', { type: 'steamSteriliser' })
const load = knownAs('load', 'load:a', { machine: 'machine:a', builtAt: at('06:00') })
const wanted = wantedIncubation(machine, policyFrom(undefined), noLotKnown)

for (const { name, over, says } of [
  { name: 'a control of the same lot that grew', over: {}, says: undefined },
  { name: 'no control', over: { control: null }, says: /there is no control/ },
  {
    name: 'a control of another lot',
    over: { control: { lot: 'other', result: 'growth' } },
    says: /the control is of another lot/,
  },
  {
    name: 'a dead control',
    over: { control: { lot: 'B1', result: 'noGrowth' } },
    says: /the control did not grow, so the lot or the incubator is dead/,
  },
  { name: 'too short', over: { incubatedHours: 1 }, says: /read before its incubation was over/ },
  {
    name: 'both',
    over: { incubatedHours: 1, control: null },
    says: /there is no control; it was read before its incubation was over/,
  },
  { name: 'growth, early and without a control', over: { result: 'growth', incubatedHours: 1, control: null } },
] as const)
  test(`invalidReading: ${name}, as the rules find it`, () => {
    const read = {
      lot: 'B1',
      incubatedHours: 48,
      result: 'noGrowth' as const,
      control: { lot: 'B1', result: 'growth' as const },
      ...over,
    }
    const why = invalidReading(read, wanted)
    if (says === undefined) assert.equal(why, undefined)
    else assert.match(why ?? '', says)
    const entry = entered('biological-read', { load: 'load:a', ...read })
    const known = { known: [machine, load] }
    const found = [biologicalControlGrew, biologicalIncubated].flatMap((rule) => findingsOf(rule, known, entry))
    assert.equal(found.length > 0, why !== undefined)
  })
