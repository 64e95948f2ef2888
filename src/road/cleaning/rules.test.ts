import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { insulationTested } from './rules/insulation-tested.ts'
import { inspectedMagnified } from './rules/inspected-magnified.ts'
import { inspectionSendsBack } from './rules/inspection-sends-back.ts'
import { lumensBrushed } from './rules/lumens-brushed.ts'
import { soakInTime } from './rules/soak-in-time.ts'
import { soakWaterCool } from './rules/soak-water-cool.ts'
import { usedPackWasOpened } from './rules/used-pack-was-opened.ts'
import { useNamesRoundBefore } from './rules/use-names-round-before.ts'
import { washedAfterSoak } from './rules/washed-after-soak.ts'
import { washedTakenApart } from './rules/washed-taken-apart.ts'
import { washerHotEnough } from './rules/washer-hot-enough.ts'
import { washerKnown } from './rules/washer-known.ts'

const hollow = knownAs('device', 'device:hook', {
  name: 'Hook',
  parts: 3,
  insulated: true,
  lumens: [{ diameterMm: 5, lengthMm: 330 }],
})
const set = knownAs('set', 'set:a', { name: 'Lap A', countSheet: [{ device: 'device:hook', count: 1 }] })
const used = knownAs('round', 'round:a', {
  set: 'set:a',
  began: step('09:00', { because: 'use' as const, case: 'case:1' as const }),
})
const known = [hollow, set, used]
const soak = (body: Partial<Bodies['soak-started']> = {}, time = '09:10') =>
  entered('soak-started', { round: 'round:a', solution: 'enzymatic', ...body }, { at: at(time) })
const byHand = {
  kind: 'manual',
  detergent: 'mild',
  takenApart: true,
  lumensBrushed: 'yes',
  lumensFlushed: 'yes',
  finalRinse: 'purified',
} as const
const inWasher = {
  kind: 'washer',
  machine: 'machine:w',
  program: 'instruments',
  takenApart: true,
  a0Seconds: 600,
} as const
const wash = (how: Partial<typeof byHand> | Bodies['wash-recorded']['how'] = {}, time = '10:00') =>
  entered('wash-recorded', { wash: 'wash:1', rounds: ['round:a'], how: { ...byHand, ...how } }, { at: at(time) })
const inspected = (body: Partial<Bodies['inspected']> = {}) =>
  entered('inspected', {
    round: 'round:a',
    cleanliness: 'clean',
    magnified: true,
    function: 'works',
    insulation: 'passed',
    dry: true,
    ...body,
  })

test('soak-in-time is silent at the limit, cautions above it, and alarms after dry hours', () => {
  const weightAt = (time: string) => findingsOf(soakInTime, { known }, soak({}, time)).map((each) => each.weight)
  assert.deepEqual(weightAt('09:20'), [])
  assert.deepEqual(weightAt('09:21'), ['caution'])
  assert.deepEqual(weightAt('15:00'), ['caution'])
  assert.deepEqual(weightAt('15:01'), ['stop'])
  const [late] = findingsOf(soakInTime, { known }, soak({}, '15:30'))
  assert.equal(late?.measured, '6 h 30 min')
  assert.equal(late?.limit, '6 h')
  assert.equal(late?.source.status, 'unverified')
  const clean = knownAs('round', 'round:a', { began: step('01:00', { because: 'newSet' as const, case: null }) })
  assert.deepEqual(findingsOf(soakInTime, { known: [clean] }, soak()), [])
})

test('soak-in-time takes the limit that the unit has set', () => {
  const limits = { 'soak-caution-minutes': 5 }
  assert.equal(findingsOf(soakInTime, { known, limits }, soak({}, '09:10')).length, 1)
})

test('soak-water-cool wants water below 43 °C', () => {
  assert.deepEqual(findingsOf(soakWaterCool, {}, soak({ waterC: 42.9 as never })), [])
  assert.deepEqual(findingsOf(soakWaterCool, {}, soak()), [])
  const [hot] = findingsOf(soakWaterCool, {}, soak({ waterC: 43 as never }))
  assert.equal(hot?.weight, 'caution')
  assert.equal(hot?.measured, '43 °C')
})

test('washed-after-soak misses the soak of a used set only', () => {
  assert.equal(findingsOf(washedAfterSoak, { known }, wash())[0]?.weight, 'caution')
  assert.equal(findingsOf(washedAfterSoak, { known }, wash({}, '15:30'))[0]?.weight, 'stop')
  const soaked = { ...used, soak: step('09:10', { solution: 'enzymatic', waterC: null }) }
  assert.deepEqual(findingsOf(washedAfterSoak, { known: [soaked] }, wash()), [])
})

test('washed-taken-apart names what has parts', () => {
  assert.deepEqual(findingsOf(washedTakenApart, { known }, wash()), [])
  assert.match(findingsOf(washedTakenApart, { known }, wash({ takenApart: false as never }))[0]?.says ?? '', /Hook/)
  const solid = { ...hollow, parts: 1 }
  assert.deepEqual(
    findingsOf(washedTakenApart, { known: [solid, set, used] }, wash({ takenApart: false as never })),
    [],
  )
})

test('lumens-brushed wants brush and flush where there is a lumen', () => {
  assert.deepEqual(findingsOf(lumensBrushed, { known }, wash()), [])
  const [none] = findingsOf(lumensBrushed, { known }, wash({ lumensBrushed: 'noLumen', lumensFlushed: 'no' } as never))
  assert.match(none?.says ?? '', /brushed or flushed/)
  const solid = { ...hollow, lumens: [] }
  assert.deepEqual(findingsOf(lumensBrushed, { known: [solid, set, used] }, wash({ lumensBrushed: 'no' } as never)), [])
})

test('washer-hot-enough: a missing A0 is not evaluable, a low one an alarm, the limit itself passes', () => {
  const judge = (a0Seconds: number | null, limits = {}) =>
    findingsOf(washerHotEnough, { limits }, wash({ ...inWasher, a0Seconds }))
  assert.equal(judge(null)[0]?.weight, 'notEvaluable')
  assert.equal(judge(599)[0]?.weight, 'stop')
  assert.equal(judge(599)[0]?.measured, 'A0 599 s')
  assert.deepEqual(judge(600), [])
  // A0 600 of 80 °C for 10 min, summed in seconds, comes out with float noise.
  assert.deepEqual(judge(599.9999999999), [])
  assert.equal(judge(600, { 'resistant-viruses-expected': true })[0]?.limit, 'A0 at least 3000 s')
  assert.deepEqual(findingsOf(washerHotEnough, {}, wash()), [])
})

test('washer-known checks the kind, the service and the program of the machine', () => {
  const washer = knownAs('machine', 'machine:w', { name: 'Washer', type: 'washer', programs: ['instruments'] })
  assert.deepEqual(findingsOf(washerKnown, { known: [washer] }, wash(inWasher)), [])
  const wrong = knownAs('machine', 'machine:w', {
    programs: ['other'],
    service: { state: 'withdrawn', since: null, why: 'leak' },
  })
  assert.equal(findingsOf(washerKnown, { known: [wrong] }, wash(inWasher)).length, 3)
})

test('use-names-round-before misses the round that a set is taken from', () => {
  const onRound = { ...set, round: { id: 'round:old' as const, began: at('01:00') } }
  const use = (previousRound?: 'round:old') =>
    entered('use-ended', { round: 'round:a', set: 'set:a', ...(previousRound ? { previousRound } : {}) })
  assert.equal(findingsOf(useNamesRoundBefore, { known: [onRound] }, use()).length, 1)
  assert.deepEqual(findingsOf(useNamesRoundBefore, { known: [onRound] }, use('round:old')), [])
  assert.deepEqual(findingsOf(useNamesRoundBefore, { known: [set] }, use()), [])
})

test('used-pack-was-opened misses the opening for the case', () => {
  const use = entered('use-ended', { round: 'round:b', set: 'set:a', case: 'case:1', previousRound: 'round:a' })
  assert.equal(findingsOf(usedPackWasOpened, { known: [used] }, use).length, 1)
  const opened = { ...used, opened: step('08:00', { case: 'case:1' }) as never }
  assert.deepEqual(findingsOf(usedPackWasOpened, { known: [opened] }, use), [])
})

test('inspected-magnified and insulation-tested say what was not done', () => {
  assert.deepEqual(findingsOf(inspectedMagnified, {}, inspected()), [])
  assert.equal(findingsOf(inspectedMagnified, {}, inspected({ magnified: false }))[0]?.weight, 'caution')
  assert.deepEqual(findingsOf(insulationTested, { known }, inspected()), [])
  assert.match(findingsOf(insulationTested, { known }, inspected({ insulation: 'notTested' }))[0]?.says ?? '', /Hook/)
  assert.equal(findingsOf(insulationTested, { known }, inspected({ insulation: 'notInsulated' })).length, 1)
})

test('inspection-sends-back says everything that is wrong at once', () => {
  assert.deepEqual(findingsOf(inspectionSendsBack, {}, inspected()), [])
  const [found] = findingsOf(inspectionSendsBack, {}, inspected({ cleanliness: 'soilSeen', dry: false }))
  assert.equal(found?.says, 'Goes back: soil was seen: wash again; it is wet: dry it.')
})
