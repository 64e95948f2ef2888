import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '../policy.ts'
import { at, knownAs, step } from '../rule-harness.ts'
import { redoseClocks } from './redose-clocks.ts'

test('redose-clocks: from the last dose by the hours of the drug, and none for a drug that is not repeated or a case that is over', () => {
  const dose = (clock: string, drug: 'cefazolin' | 'ceftriaxone' | 'other') => step(clock, { drug })
  const ends = (doses: readonly ReturnType<typeof dose>[], over = false) => {
    const recorded = {
      startedAt: at('08:00'),
      endedAt: at('09:00'),
      woundClass: 'I' as const,
      surgeon: 'person:a' as const,
      implant: null,
      antibiotic: null,
    }
    const known = knownAs('case', 'case:1', { doses, recorded: over ? step('09:00', recorded) : null })
    return redoseClocks({ policy: policyFrom(undefined), immersions: [], baths: [], cases: [known] }).map(
      (clock) => clock.endsAt,
    )
  }
  // Bratzler et al. 2013, table 1: cefazolin is repeated every 4 h, ceftriaxone is not.
  assert.deepEqual(ends([dose('08:00', 'cefazolin')]), [at('12:00')])
  assert.deepEqual(ends([dose('11:00', 'cefazolin'), dose('08:00', 'cefazolin')]), [at('15:00')])
  assert.deepEqual(ends([dose('08:00', 'ceftriaxone')]), [])
  assert.deepEqual(ends([dose('08:00', 'other')]), [])
  assert.deepEqual(ends([dose('08:00', 'cefazolin')], true), [])
  assert.deepEqual(ends([]), [])
})
