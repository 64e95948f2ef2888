import assert from 'node:assert/strict'
import { test } from 'node:test'
import { bathNotForMycobacteria } from '../baths/rules/bath-not-for-mycobacteria.ts'
import type { BathProductId } from '../baths/products.ts'
import type { DeviceKnown } from '../catalogue/fold.ts'
import type { Bodies } from '../kinds.ts'
import type { AnyRule } from '../rule.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import type { RoundKnown } from '../round.ts'
import type { AttachmentDigest } from '../attachment.ts'
import type { PatientFacts } from './patient-facts.ts'
import { mycobacteriaWashedApart } from './rules/mycobacteria-washed-apart.ts'
import { openedNotAfterPhthalaldehyde } from './rules/opened-not-after-phthalaldehyde.ts'
import { openedWithoutAllergen } from './rules/opened-without-allergen.ts'
import { prionWayKept } from './rules/prion-way-kept.ts'
import { releaseAfterPrionWay } from './rules/release-after-prion-way.ts'

/* M25, M26, M28, M31, M32 and W31: the check cases of the methods, asked of the rules as a case and its set tell them. */

const healthy: PatientFacts = {
  prion: 'noSuspicion',
  tissue: 'none',
  mycobacteria: 'no',
  bladderCancer: 'no',
  allergiesAsked: true,
  allergies: [],
}
const sporadicBrain = { prion: 'sporadic', tissue: 'high' } as const

interface Told {
  readonly patient?: Partial<PatientFacts> | null
  readonly device?: Partial<DeviceKnown>
  readonly round?: Partial<RoundKnown>
  readonly more?: readonly ReturnType<typeof knownAs>[]
}

/** A set of one device, soiled in a case; and the case that comes next is the same one where a rule asks for it. */
function given({ patient = {}, device = {}, round = {}, more = [] }: Told) {
  const patientFacts = patient === null ? null : step('08:00', { ...healthy, ...patient })
  return {
    known: [
      knownAs('case', 'case:c', { patientFacts }),
      knownAs('device', 'device:d', { name: 'Forceps', cleanable: true, ...device }),
      knownAs('set', 'set:s', { name: 'Set', countSheet: [{ device: 'device:d', count: 1 }] }),
      knownAs('round', 'round:r', {
        set: 'set:s',
        began: step('09:00', { because: 'use' as const, case: 'case:c' as const }),
        ...round,
      }),
      ...more,
    ],
  }
}

const weights = (rule: AnyRule, told: Told, entry: ReturnType<typeof entered>) =>
  findingsOf(rule, given(told), entry).map(({ weight }) => weight)

const soak = entered('soak-started', { round: 'round:r', solution: 'enzymatic' })
const immersion: Bodies['immersion-started'] = {
  immersion: 'immersion:i',
  bath: 'bath:b',
  rounds: ['round:r'],
  claim: 'disinfect',
  how: 'manual',
  fullyImmersed: true,
  lumensFilled: true,
  cleanedAndDry: true,
  implant: false,
  mycobacteriaSuspected: false,
}
const built = entered('load-built', {
  load: 'load:l',
  machine: 'machine:m',
  program: 'p',
  purpose: 'goods',
  rounds: ['round:r'],
})
const machine = (type: 'steamSteriliser' | 'ethyleneOxideSteriliser') =>
  knownAs('machine', 'machine:m', { type, airRemoval: type === 'steamSteriliser' ? 'dynamic' : 'none' })
const cycle = (holdingSeconds: number, minC: number) => {
  const { equilibrationSeconds, fMinutes, maxC, maxSpreadK } = notMeasured
  const figures = { holdingSeconds, minC, equilibrationSeconds, fMinutes, maxC, maxSpreadK, fReferenceC: 121.1, zK: 10 }
  return step('11:00', {
    program: 'p',
    startedAt: at('10:00'),
    endedAt: at('11:00'),
    log: '0'.repeat(64) as AttachmentDigest,
    report: { verdict: 'met' as const, ...figures, criteria: [], findings: [] },
  })
}
const notMeasured = { equilibrationSeconds: null, fMinutes: null, maxC: null, maxSpreadK: null }
const bathOf = (product: BathProductId) =>
  knownAs('bath', 'bath:b', { product, activatedAt: at('07:00'), expiresAt: at('23:00') })
const bathed = { immersion: step('10:00', { id: 'immersion:i' as const, claim: 'disinfect' as const, decided: null }) }
const inBath = knownAs('immersion', 'immersion:i', { bath: 'bath:b' })
const opened = entered('pack-opened', {
  round: 'round:r',
  case: 'case:c',
  outsideIndicator: 'missing',
  insideIndicator: 'missing',
  condition: 'intact',
})

test('prion-way-kept, M28: a patient with sporadic disease and tissue of no infectivity changes nothing', () => {
  assert.deepEqual(weights(prionWayKept, { patient: { prion: 'sporadic', tissue: 'none' } }, soak), [])
  assert.deepEqual(weights(prionWayKept, { patient: null }, soak), [])
})

test('prion-way-kept, M25: brain of a patient with sporadic disease says so at the soak and asks for a listed cycle', () => {
  assert.deepEqual(weights(prionWayKept, { patient: sporadicBrain }, soak), ['caution'])
  assert.deepEqual(weights(prionWayKept, { patient: sporadicBrain, more: [machine('steamSteriliser')] }, built), [
    'caution',
  ])
  assert.deepEqual(
    weights(prionWayKept, { patient: sporadicBrain, more: [machine('ethyleneOxideSteriliser')] }, built),
    ['caution', 'stop'],
  )
  assert.deepEqual(weights(prionWayKept, { patient: sporadicBrain }, entered('immersion-started', immersion)), [
    'caution',
    'stop',
  ])
})

test('prion-way-kept, M26: what cannot be cleaned is destroyed', () => {
  const [found] = findingsOf(prionWayKept, given({ patient: sporadicBrain, device: { cleanable: false } }), soak)
  assert.equal(found?.weight, 'stop')
  assert.match(found?.says ?? '', /destroy/)
})

test('prion-way-kept: a risk that is not known waits in quarantine, and a stated tissue of none lets it go', () => {
  for (const prion of ['notKnown', 'suspected'] as const) {
    assert.deepEqual(weights(prionWayKept, { patient: { prion, tissue: 'high' } }, soak), ['notEvaluable'])
    assert.deepEqual(weights(prionWayKept, { patient: { prion, tissue: 'notStated' } }, soak), ['notEvaluable'])
    assert.deepEqual(weights(prionWayKept, { patient: { prion, tissue: 'none' } }, soak), [])
  }
})

test('prion-way-kept: a round that begins anew carries the case behind it, until a pack was released', () => {
  const again = { began: step('11:00', { because: 'loadRejected' as const, case: null }), previous: 'round:p' as const }
  const before = (outcome: 'released' | 'rejected') =>
    knownAs('round', 'round:p', {
      began: step('08:30', { because: 'use' as const, case: 'case:c' as const }),
      decision: step('10:30', { load: 'load:x' as const, outcome, why: null }),
    })
  const told = { patient: sporadicBrain, round: again }
  assert.deepEqual(weights(prionWayKept, { ...told, more: [before('rejected')] }, soak), ['caution'])
  assert.deepEqual(weights(prionWayKept, { ...told, more: [before('released')] }, soak), [])
})

test('release-after-prion-way: 18 min at 134 °C with prevacuum, proven by the log, and nothing less', () => {
  const decided = entered('load-decided', { load: 'load:l', packs: [{ round: 'round:r', outcome: 'released' }] })
  const after = (minutes: number | null, minC = 134) => {
    const load = knownAs('load', 'load:l', {
      machine: 'machine:m',
      rounds: ['round:r'],
      cycle: minutes === null ? null : cycle(minutes * 60, minC),
    })
    return weights(releaseAfterPrionWay, { patient: sporadicBrain, more: [machine('steamSteriliser'), load] }, decided)
  }
  assert.deepEqual(after(18), [])
  assert.deepEqual(after(17.9), ['stop'])
  assert.deepEqual(after(18, 133.9), ['stop'])
  assert.deepEqual(after(null), ['notEvaluable'])
})

test('bath-not-for-mycobacteria, M31 and W31: the case behind the set bars glutaraldehyde, and no other agent', () => {
  const into = (product: BathProductId, mycobacteria: PatientFacts['mycobacteria']) =>
    weights(
      bathNotForMycobacteria,
      { patient: { mycobacteria }, more: [bathOf(product)] },
      entered('immersion-started', immersion),
    )
  assert.deepEqual(into('glutaraldehyde-2.4', 'infection'), ['stop'])
  assert.deepEqual(into('glutaraldehyde-2.4', 'suspected'), ['stop'])
  assert.deepEqual(into('glutaraldehyde-2.4', 'no'), [])
  assert.deepEqual(into('ortho-phthalaldehyde-0.55', 'infection'), [])
  assert.deepEqual(weights(mycobacteriaWashedApart, { patient: { mycobacteria: 'infection' } }, soak), ['caution'])
  assert.deepEqual(weights(mycobacteriaWashedApart, {}, soak), [])
})

test('opened-not-after-phthalaldehyde, M32: a cystoscope from that bath is not for a patient who had bladder cancer', () => {
  const use = (bladderCancer: PatientFacts['bladderCancer'], domain: DeviceKnown['domain']) =>
    weights(
      openedNotAfterPhthalaldehyde,
      {
        patient: { bladderCancer },
        device: domain === undefined ? {} : { domain },
        round: bathed,
        more: [inBath, bathOf('ortho-phthalaldehyde-0.55')],
      },
      opened,
    )
  assert.deepEqual(use('yes', 'urology'), ['stop'])
  assert.deepEqual(use('notKnown', 'urology'), ['notEvaluable'])
  assert.deepEqual(use('no', 'urology'), ['caution'])
  assert.deepEqual(use('yes', 'laparoscopy'), [])
  assert.deepEqual(use('yes', undefined), ['notEvaluable'])
})

test('opened-without-allergen: latex in a device, and the agent of the bath or the gas', () => {
  const latex = { patient: { allergies: ['latex' as const] } }
  assert.deepEqual(weights(openedWithoutAllergen, { ...latex, device: { materials: ['naturalRubber'] } }, opened), [
    'stop',
  ])
  assert.deepEqual(weights(openedWithoutAllergen, { ...latex, device: { materials: ['silicone'] } }, opened), [])
  assert.deepEqual(weights(openedWithoutAllergen, latex, opened), ['notEvaluable'])
  const agent = { patient: { allergies: ['glutaraldehyde' as const] }, round: bathed }
  const more = [inBath, bathOf('glutaraldehyde-2.4')]
  assert.deepEqual(weights(openedWithoutAllergen, { ...agent, more }, opened), ['stop'])
  const gas = {
    patient: { allergies: ['ethyleneOxide' as const] },
    round: { load: step('10:00', { id: 'load:l' as const }) },
    more: [machine('ethyleneOxideSteriliser'), knownAs('load', 'load:l', { machine: 'machine:m' })],
  }
  assert.deepEqual(weights(openedWithoutAllergen, gas, opened), ['stop'])
  assert.deepEqual(weights(openedWithoutAllergen, { ...gas, patient: {} }, opened), [])
})
