import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Celsius } from '#units/quantities.ts'
import type { Bodies } from '../kinds.ts'
import { policyFrom } from '../policy.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import type { Instant } from '../instant.ts'
import { noGas, type LoadGas } from './load-gas.ts'
import { aerationAdvice } from './aeration.ts'
import { aerationDone } from './rules/aeration-done.ts'
import { aerationInterrupted } from './rules/aeration-interrupted.ts'
import { aerationPlanned } from './rules/aeration-planned.ts'
import { cancelledNotSterile } from './rules/cancelled-not-sterile.ts'
import { exposureWithinLimits } from './rules/exposure-within-limits.ts'
import { loadOfRepacked } from './rules/load-of-repacked.ts'
import { loadPacksFitMethod } from './rules/load-packs-fit-method.ts'
import { loadWithinClaims } from './rules/load-within-claims.ts'
import { releaseAerated } from './rules/release-aerated.ts'
import { releaseNotCancelled } from './rules/release-not-cancelled.ts'
import { releasePacksFitMethod } from './rules/release-packs-fit-method.ts'
import { releaseResidues } from './rules/release-residues.ts'
import { residuesWithinLimits } from './rules/residues-within-limits.ts'

const celsius = (value: number) => value as Celsius
const decide = (outcome: 'released' | 'rejected' = 'released', when: Instant = at('20:00')) =>
  entered('load-decided', { load: 'load:1', packs: [{ round: 'round:a', outcome }] }, { at: when })
const gasMachine = knownAs('machine', 'machine:g', { type: 'ethyleneOxideSteriliser', name: 'Gas' })
const loadWith = (gas: Partial<LoadGas>, machine: 'machine:g' | 'machine:p' = 'machine:g') =>
  knownAs('load', 'load:1', { machine, gas: { ...noGas, ...gas } })
const started = (time: string, setC: number, makerHours?: number) =>
  step(time, {
    place: 'aerator' as const,
    setC: celsius(setC),
    ...(makerHours === undefined ? {} : { makerHours }),
  })
const ended = (time: string, lowestC: number) => step(time, { lowestC: celsius(lowestC) })

test('release-aerated: none, running, too short, done, and the longer time of a maker (A01, A04, A07)', () => {
  const found = (gas: Partial<LoadGas>) =>
    findingsOf(releaseAerated, { known: [gasMachine, loadWith(gas)] }, decide()).filter(
      (each) => each.weight === 'stop',
    )
  assert.match(found({})[0]?.says ?? '', /No aeration/)
  assert.match(found({ aeration: started('08:00', 60) })[0]?.says ?? '', /still being aerated/)
  assert.match(found({ aeration: started('08:00', 50), aerated: ended('16:00', 50) })[0]?.says ?? '', /not done/)
  assert.deepEqual(found({ aeration: started('08:00', 60), aerated: ended('16:00', 60) }), [])
  assert.equal(found({ aeration: started('08:00', 60), aerated: ended('16:00', 59) }).length, 1)
  assert.match(found({ aeration: started('08:00', 60, 10), aerated: ended('16:30', 60) })[0]?.says ?? '', /maker/)
  const rejected = findingsOf(releaseAerated, { known: [gasMachine, loadWith({})] }, decide('rejected'))
  assert.deepEqual(rejected, [], 'a rejection needs no aeration')
})

test('aeration-done: opened early is alarmed, with the time between pairs as advice only', () => {
  const open = loadWith({ aeration: started('01:00', 55) })
  const end = (time: string) => entered('aeration-ended', { load: 'load:1', lowestC: celsius(55) }, { at: at(time) })
  const found = findingsOf(aerationDone, { known: [open] }, end('11:00'))
  assert.deepEqual(
    found.map((each) => each.weight),
    ['stop', 'note'],
  )
  assert.match(found[0]?.says ?? '', /worked out between/)
  assert.deepEqual(findingsOf(aerationDone, { known: [open] }, end('13:00')), [])
})

test('aeration-planned: a time between pairs is advice before the aeration ends, and 15 °C releases nothing (A07)', () => {
  const found = (setC: number) =>
    findingsOf(
      aerationPlanned,
      {},
      entered('aeration-started', { load: 'load:1', place: 'aerator', setC: celsius(setC) }),
    ).map(({ weight, measured }) => [weight, measured])
  // On a straight line of log hours between the pairs of CDC 2008: 28.9 h at 40 °C, 9.8 h at 55 °C.
  assert.deepEqual(found(40), [['note', '28.9 h at 40 °C']])
  assert.deepEqual(found(55), [['note', '9.8 h at 55 °C']])
  assert.deepEqual(found(50), [])
  assert.deepEqual(found(65), [])
  assert.deepEqual(found(15), [['caution', '15 °C']])
  assert.equal(aerationAdvice(15, policyFrom(undefined)), null)
})

test('an interrupted aeration counts for nothing: told, and the load is held until a whole one', () => {
  const stop = entered('aeration-stopped', { load: 'load:1', cause: 'power' }, { at: at('15:00') })
  const told = (gas: Partial<LoadGas>) => findingsOf(aerationInterrupted, { known: [loadWith(gas)] }, stop)
  const running = started('08:00', 60)
  assert.deepEqual(
    told({ aeration: running }).map(({ weight, measured }) => [weight, measured]),
    [['stop', '7 h until it stopped']],
  )
  assert.equal(told({})[0]?.weight, 'caution')
  assert.match(told({ aeration: running, aerated: ended('14:00', 60) })[0]?.says ?? '', /already ended/)
  const stopped = step('15:00', { cause: 'power' as const })
  const found = (gas: Partial<LoadGas>) => findingsOf(releaseAerated, { known: [gasMachine, loadWith(gas)] }, decide())
  assert.match(found({ stopped })[0]?.says ?? '', /interrupted, and none of its time counts/)
  // An end that is recorded after the interruption, without a new start, proves nothing.
  assert.equal(found({ stopped, aerated: ended('16:30', 60) })[0]?.weight, 'stop')
})

test('a cancelled cycle: told, not released, and packed again before it runs (C20)', () => {
  const told = findingsOf(cancelledNotSterile, {}, entered('cycle-cancelled', { load: 'load:1', cause: 'moisture' }))
  assert.match(told[0]?.says ?? '', /dry the instruments/)
  const cancelled = loadWith({ cancelled: step('10:00', { cause: 'moisture' as const }) })
  assert.equal(findingsOf(releaseNotCancelled, { known: [cancelled] }, decide()).length, 1)
  const built = entered('load-built', {
    load: 'load:2',
    machine: 'machine:p',
    program: 'x',
    purpose: 'goods',
    rounds: ['round:a'],
  })
  const round = (sealedAt: string) =>
    knownAs('round', 'round:a', {
      load: step('09:30', { id: 'load:1' as const }),
      sealed: step(sealedAt, sealedIn('synthetic')),
    })
  assert.equal(findingsOf(loadOfRepacked, { known: [cancelled, round('09:00')] }, built).length, 1)
  assert.deepEqual(findingsOf(loadOfRepacked, { known: [cancelled, round('11:00')] }, built), [])
})

function sealedIn(material: Bodies['pack-sealed']['material']): Omit<Bodies['pack-sealed'], 'round'> {
  return {
    wrap: 'wrap',
    ...(material === undefined ? {} : { material }),
    insideIndicator: null,
    outsideIndicator: null,
    counted: [],
    implant: false,
  }
}

test('load-packs-fit-method: paper and linen with peroxide, and a wrap that nobody recorded', () => {
  const peroxide = knownAs('machine', 'machine:p', { type: 'hydrogenPeroxideSteriliser' })
  const built = entered('load-built', {
    load: 'load:1',
    machine: 'machine:p',
    program: 'x',
    purpose: 'goods',
    rounds: ['round:a'],
  })
  const found = (material: Bodies['pack-sealed']['material']) =>
    findingsOf(
      loadPacksFitMethod,
      { known: [peroxide, knownAs('round', 'round:a', { sealed: step('09:00', sealedIn(material)) })] },
      built,
    )
  assert.equal(found('cellulose')[0]?.weight, 'stop')
  assert.equal(found('linen')[0]?.weight, 'stop')
  assert.equal(found(undefined)[0]?.weight, 'notEvaluable')
  assert.deepEqual(found('synthetic'), [])
  const paper = knownAs('round', 'round:a', { sealed: step('09:00', sealedIn('cellulose')) })
  const known = [peroxide, paper, loadWith({}, 'machine:p')]
  assert.equal(findingsOf(releasePacksFitMethod, { known }, decide())[0]?.weight, 'stop')
  assert.deepEqual(findingsOf(releasePacksFitMethod, { known }, decide('rejected')), [])
})

test('load-within-claims: a pair never trades diameter for length, and the load counts its lumens', () => {
  const claim = {
    id: 'one',
    materials: ['stainlessSteel' as const],
    minDiameterMm: 2,
    maxLengthMm: 250,
    maxChannels: 1,
    flexible: false,
    maxLumensInLoad: 2,
    maxLoadKg: 9,
  }
  const sealed = step('09:00', { ...sealedIn('synthetic'), massKg: 1 })
  const found = (
    lumen: { diameterMm: number; lengthMm: number },
    packs: number,
    claims: readonly (typeof claim)[] = [claim],
  ) => {
    const rounds = Array.from({ length: packs }, (_, place) => `round:${place}` as const)
    const device = knownAs('device', 'device:d', {
      name: 'Tube',
      lumens: [{ ...lumen, material: 'stainlessSteel', openEnds: 2 }],
    })
    const set = knownAs('set', 'set:s', { countSheet: [{ device: 'device:d', count: 1 }] })
    const machine = knownAs('machine', 'machine:p', { type: 'hydrogenPeroxideSteriliser', lumenClaims: [...claims] })
    const known = [device, set, machine, ...rounds.map((id) => knownAs('round', id, { set: 'set:s', sealed }))]
    const built = entered('load-built', {
      load: 'load:1',
      machine: 'machine:p',
      program: 'x',
      purpose: 'goods',
      rounds,
    })
    return findingsOf(loadWithinClaims, { known }, built).map((each) => each.weight)
  }
  assert.deepEqual(found({ diameterMm: 2, lengthMm: 250 }, 1), [])
  assert.deepEqual(found({ diameterMm: 5, lengthMm: 251 }, 1), ['stop'])
  assert.deepEqual(found({ diameterMm: 1.9, lengthMm: 20 }, 1), ['stop'])
  assert.deepEqual(found({ diameterMm: 2, lengthMm: 250 }, 2), [], 'as many lumens as the claim says')
  assert.deepEqual(found({ diameterMm: 2, lengthMm: 250 }, 3), ['stop', 'stop', 'stop'])
  assert.deepEqual(found({ diameterMm: 2, lengthMm: 250 }, 1, []), ['notEvaluable'])
})

test('load-within-claims: the mass of every load is held against the claims, also without a lumen (510(k) K234082)', () => {
  const steel = { materials: ['stainlessSteel' as const], flexible: false, maxChannels: 1 }
  // Ten lumens in two trays of 10.7 lb, 9.7 kg together; the other claim says nothing of mass.
  const heavy = { id: 'L3', ...steel, minDiameterMm: 0.7, maxLengthMm: 500, maxLumensInLoad: 10, maxLoadKg: 9.7 }
  const silent = { id: 'L1', ...steel, minDiameterMm: 1, maxLengthMm: 125 }
  const found = (masses: readonly (number | null)[], claims: readonly (typeof silent)[], lumens = 0) => {
    const tube = { diameterMm: 1, lengthMm: 100, material: 'stainlessSteel' as const, openEnds: 2 as const }
    const rounds = masses.map((_, place) => `round:${place}` as const)
    const known = [
      knownAs('device', 'device:d', { name: 'Grasper', lumens: Array.from({ length: lumens }, () => tube) }),
      knownAs('set', 'set:s', { countSheet: [{ device: 'device:d', count: 1 }] }),
      knownAs('machine', 'machine:p', { type: 'hydrogenPeroxideSteriliser', lumenClaims: [...claims] }),
      ...masses.map((massKg, place) =>
        knownAs('round', `round:${place}`, {
          set: 'set:s',
          sealed: massKg === null ? null : step('09:00', { ...sealedIn('synthetic'), massKg }),
        }),
      ),
    ]
    const built = { load: 'load:1', machine: 'machine:p', program: 'x', purpose: 'goods', rounds } as const
    return findingsOf(loadWithinClaims, { known }, entered('load-built', { ...built, rounds })).map(
      ({ weight, measured, limit }) => [weight, measured, limit],
    )
  }
  assert.deepEqual(found([4.85, 4.85], [heavy, silent]), [])
  assert.deepEqual(found([4.85, 4.86], [heavy, silent]), [['stop', '9.71 kg', '9.7 kg']])
  assert.deepEqual(found([4.85, null], [heavy, silent]), [['notEvaluable', undefined, '9.7 kg']])
  // Of the public claims L3 alone says a mass: where none on file does, the load is not judged, which is no pass.
  assert.deepEqual(found([12], [silent]), [['notEvaluable', '12 kg', undefined]])
  assert.deepEqual(found([12], [silent], 1), [['notEvaluable', '12 kg', undefined]])
  assert.deepEqual(found([null], []), [['notEvaluable', undefined, undefined]])
  assert.deepEqual(found([], [silent]), [], 'a test load has no packs')
  // A lumen that fits the claim without a mass does not free the load from the mass that is claimed.
  assert.deepEqual(found([12], [heavy, silent], 1), [['stop', '12 kg', '9.7 kg']])
})

test('residues: over a limit is told and holds the load; a later good test lets it go (A09)', () => {
  const tested = (firstDay: number) => ({ figures: { contact: 'limited' as const, eoMg: { firstDay } } })
  const entry = entered('residue-tested', { load: 'load:1', ...tested(4.1) })
  assert.equal(findingsOf(residuesWithinLimits, {}, entry)[0]?.weight, 'stop')
  const held = loadWith({ residues: [step('10:00', tested(4.1))] })
  assert.equal(findingsOf(releaseResidues, { known: [held] }, decide()).length, 1)
  const good = loadWith({ residues: [step('10:00', tested(4.1)), step('12:00', tested(3))] })
  assert.deepEqual(findingsOf(releaseResidues, { known: [good] }, decide()), [])
})

test('exposure-within-limits counts the days at the action level (A21)', () => {
  const figures = {
    vapour: 'ethyleneOxide' as const,
    periods: [{ minutes: 480, ppm: 0.6 }],
    unlisted: 'unknown' as const,
  }
  const days = Array.from({ length: 29 }, (_, day) => ({
    ...step('08:00', { place: 'room', figures }),
    at: `2026-10-${String(day + 1).padStart(2, '0')}T08:00:00.000Z` as Instant,
  }))
  const entry = entered('exposure-measured', { person: 'person:ann', place: 'room', figures })
  const found = (exposures: typeof days) =>
    findingsOf(exposureWithinLimits, { known: [knownAs('person', 'person:ann', { exposures })] }, entry).map(
      (each) => each.weight,
    )
  assert.deepEqual(found(days.slice(1)), ['caution'])
  assert.deepEqual(found(days), ['caution', 'stop'])
})
