import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { EntryId } from './entry.ts'
import type { Bodies } from './kinds.ts'
import { at, entered, findingsOf, knownAs, step } from './rule-harness.ts'
import { caseTimesInOrder } from './operating/rules/case-times-in-order.ts'
import { openedInDate } from './operating/rules/opened-in-date.ts'
import { openedIndicatorsTurned } from './operating/rules/opened-indicators-turned.ts'
import { openedIntact } from './operating/rules/opened-intact.ts'
import { openedOnce } from './operating/rules/opened-once.ts'
import { openedReleased } from './operating/rules/opened-released.ts'
import { openedUnderNoRecall } from './operating/rules/opened-under-no-recall.ts'
import { enteredBySomeoneHere } from './people/rules/entered-by-someone-here.ts'
import { exceptionBySomeoneHere } from './people/rules/exception-by-someone-here.ts'
import { managerRemains } from './people/rules/manager-remains.ts'
import { conditionLost } from './storing/rules/condition-lost.ts'
import { storedCool } from './storing/rules/stored-cool.ts'
import { storedReleased } from './storing/rules/stored-released.ts'
import { storedUnderNoRecall } from './storing/rules/stored-under-no-recall.ts'
import { accountedFits } from './tracing/rules/accounted-fits.ts'
import { accountedInExtent } from './tracing/rules/accounted-in-extent.ts'
import { closedAllAccounted } from './tracing/rules/closed-all-accounted.ts'
import { closedOnce } from './tracing/rules/closed-once.ts'
import { closedOutcomesFit } from './tracing/rules/closed-outcomes-fit.ts'
import { closedRepeatsRead } from './tracing/rules/closed-repeats-read.ts'
import { recallStopsMachine } from './tracing/rules/recall-stops-machine.ts'
import type { RecalledPack } from './tracing/recall-extent.ts'
import { enteredInTime } from './unit/rules/entered-in-time.ts'
import { limitChangeIsSound } from './unit/rules/limit-change-is-sound.ts'
import { notInTheFuture } from './unit/rules/not-in-the-future.ts'
import { stepsInOrder } from './unit/rules/steps-in-order.ts'

const decided = (outcome: 'released' | 'quarantined') => step('11:00', { load: 'load:1' as const, outcome, why: null })
const released = knownAs('round', 'round:a', {
  load: step('10:00', { id: 'load:1' as const }),
  decision: decided('released'),
})
const open = (body: Partial<Bodies['pack-opened']> = {}) =>
  entered('pack-opened', {
    round: 'round:a',
    case: 'case:1',
    outsideIndicator: 'changed',
    insideIndicator: 'changed',
    condition: 'intact',
    ...body,
  })
/** An id of version 7 made at this moment. */
const idMadeAt = (milliseconds: number): EntryId => {
  const hex = milliseconds.toString(16).padStart(12, '0')
  return `${hex.slice(0, 8)}-${hex.slice(8)}-7000-8000-000000000001` as EntryId
}

const store = (time = '12:00') => entered('pack-stored', { round: 'round:a', place: 'rack' }, { at: at(time) })

test('opening a pack that is as it should be meets no finding', () => {
  for (const rule of [
    openedReleased,
    openedUnderNoRecall,
    openedIntact,
    openedIndicatorsTurned,
    openedInDate,
    openedOnce,
  ]) {
    assert.deepEqual(findingsOf(rule, { known: [released] }, open()), [], rule.id)
  }
})

test('opened-released says what the pack is instead', () => {
  const says = (state: object) => findingsOf(openedReleased, { known: [{ ...released, ...state }] }, open())[0]?.says
  assert.match(says({ decision: null }) ?? '', /was never released/)
  assert.match(says({ decision: decided('quarantined') }) ?? '', /is quarantined/)
})

test('opened-under-no-recall and stored-under-no-recall let cleared loads pass', () => {
  for (const [rule, entry] of [
    [openedUnderNoRecall, open()],
    [storedUnderNoRecall, store()],
  ] as const) {
    const found = (duty: 'recall' | 'hold' | 'cleared') =>
      findingsOf(rule, { known: [released], held: [{ recall: 'recall:1', duty }] }, entry).length
    assert.deepEqual([found('recall'), found('hold'), found('cleared')], [1, 1, 0])
  }
})

test('opened-intact, opened-indicators-turned, opened-in-date, opened-once', () => {
  const wet = { ...released, damage: step('11:30', { condition: 'wet' as const }) }
  assert.equal(findingsOf(openedIntact, { known: [wet] }, open())[0]?.measured, 'wet')
  assert.equal(findingsOf(openedIntact, { known: [released] }, open({ condition: 'torn' }))[0]?.measured, 'torn')
  const both = open({ outsideIndicator: 'missing', insideIndicator: 'notChanged' })
  assert.match(findingsOf(openedIndicatorsTurned, { known: [released] }, both)[1]?.says ?? '', /all other packs/)
  const dated = { ...released, sealed: step('09:00', { useBefore: at('11:59') } as never) }
  assert.equal(findingsOf(openedInDate, { known: [dated] }, open()).length, 1)
  const again = (name: 'case:1' | 'case:2') => ({ ...released, opened: step('11:30', { ...open().body, case: name }) })
  const weight = (name: 'case:1' | 'case:2') => findingsOf(openedOnce, { known: [again(name)] }, open())[0]?.weight
  assert.deepEqual([weight('case:1'), weight('case:2')], ['note', 'stop'])
})

test('stored-released, stored-cool, condition-lost', () => {
  assert.deepEqual(findingsOf(storedReleased, { known: [released] }, store()), [])
  const held = { ...released, decision: decided('quarantined') }
  assert.equal(findingsOf(storedReleased, { known: [held] }, store()).length, 1)
  const load = knownAs('load', 'load:1', { cycle: step('10:50', { endedAt: at('11:40') } as never) })
  assert.equal(findingsOf(storedCool, { known: [released, load] }, store())[0]?.measured, '20 min')
  assert.deepEqual(findingsOf(storedCool, { known: [released, load] }, store('12:10')), [])
  const noted = (condition: 'intact' | 'wet') => entered('pack-condition-noted', { round: 'round:a', condition })
  assert.deepEqual(findingsOf(conditionLost, {}, noted('intact')), [])
  assert.equal(findingsOf(conditionLost, {}, noted('wet'))[0]?.weight, 'stop')
})

test('case-times-in-order', () => {
  const recorded = (endedAt: string) =>
    entered('case-recorded', { case: 'case:1', startedAt: at('10:00'), endedAt: at(endedAt) } as never)
  assert.deepEqual(findingsOf(caseTimesInOrder, {}, recorded('11:00')), [])
  assert.equal(findingsOf(caseTimesInOrder, {}, recorded('09:00')).length, 1)
})

const pack = (over: Partial<RecalledPack> = {}): RecalledPack => ({
  round: 'round:a',
  set: 'set:a',
  load: 'load:1',
  duty: 'recall',
  place: 'onShelf',
  shelf: 'rack',
  case: null,
  outcome: null,
  ...over,
})
const extent = (packs: readonly RecalledPack[], verdict: 'everything' | 'repeatsPending' = 'everything') => ({
  packs,
  verdict,
  repeats: { good: 1, needed: 3 },
})

test('accounted-in-extent and accounted-fits (R25)', () => {
  const account = (outcome: Bodies['recall-accounted']['outcome'], round: 'round:a' | 'round:z' = 'round:a') =>
    entered('recall-accounted', { recall: 'recall:1', round, outcome })
  const given = (over: Partial<RecalledPack>) => ({ extent: extent([pack(over)]) })
  assert.equal(findingsOf(accountedInExtent, given({}), account('discarded', 'round:z'))[0]?.weight, 'caution')
  const fits = (over: Partial<RecalledPack>, outcome: Bodies['recall-accounted']['outcome']) =>
    findingsOf(accountedFits, given(over), account(outcome)).length === 0
  assert.ok(fits({}, 'pulledFromShelf'))
  assert.ok(!fits({}, 'patientToBeFollowed'))
  assert.ok(!fits({}, 'clearedByRepeats'))
  assert.ok(!fits({}, 'alreadyReprocessed'))
  assert.ok(fits({ place: 'over' }, 'alreadyReprocessed'))
  const used = { place: 'opened', case: 'case:1' } as const
  assert.ok(fits(used, 'patientToBeFollowed'))
  assert.ok(fits(used, 'stoppedBeforeUse'))
  for (const outcome of ['pulledFromShelf', 'discarded', 'alreadyReprocessed'] as const) assert.ok(!fits(used, outcome))
})

test('a recall is closed only when all is done', () => {
  const close = entered('recall-closed', { recall: 'recall:1', cause: 'found', action: 'done it' })
  assert.equal(findingsOf(closedAllAccounted, { extent: extent([pack()]) }, close)[0]?.measured, '0 of 1')
  assert.deepEqual(findingsOf(closedAllAccounted, { extent: extent([pack({ duty: 'cleared' })]) }, close), [])
  assert.deepEqual(findingsOf(closedAllAccounted, { extent: extent([pack({ outcome: 'discarded' })]) }, close), [])
  const wrong = extent([pack({ case: 'case:1', place: 'over', outcome: 'pulledFromShelf' })])
  assert.equal(findingsOf(closedOutcomesFit, { extent: wrong }, close).length, 1)
  const held = extent([pack({ duty: 'hold', outcome: 'pulledFromShelf' })], 'repeatsPending')
  assert.equal(findingsOf(closedRepeatsRead, { extent: held }, close)[0]?.measured, '1 good')
  const recall = knownAs('recall', 'recall:1', { opened: step('10:00', {} as never) })
  assert.deepEqual(findingsOf(closedOnce, { known: [recall] }, close), [])
  const closed = { ...recall, closed: step('11:00', { cause: 'x', action: 'y' }) }
  assert.equal(findingsOf(closedOnce, { known: [closed] }, close).length, 1)
})

test('closed-repeats-read: by every method the steriliser is proven, out of service, or put back since', () => {
  const close = entered('recall-closed', { recall: 'recall:1', cause: 'found', action: 'done it' })
  const found = (type: 'hydrogenPeroxideSteriliser' | 'steamSteriliser', service: object = {}, good = 1) => {
    const began = knownAs('machine', 'machine:p', { type })
    const machine = { ...began, service: { ...began.service, ...service } }
    const failed = {
      load: 'load:1' as const,
      at: at('08:00'),
      duty: 'recall' as const,
      why: '',
      source: { title: '', status: 'proposal' as const },
    }
    const all = {
      ...extent([]),
      repeats: { good, needed: 3 },
      machine: 'machine:p' as const,
      failed: 'load:1' as const,
      loads: [failed],
      coveredBy: null,
    }
    return findingsOf(closedRepeatsRead, { known: [machine], extent: all }, close).map((each) => each.measured)
  }
  assert.deepEqual(found('hydrogenPeroxideSteriliser'), ['1 good'])
  assert.deepEqual(found('hydrogenPeroxideSteriliser', {}, 3), [])
  assert.deepEqual(found('hydrogenPeroxideSteriliser', { state: 'withdrawn', since: at('09:00') }), [])
  assert.deepEqual(found('hydrogenPeroxideSteriliser', { state: 'inService', since: at('11:00') }), [])
  assert.deepEqual(found('hydrogenPeroxideSteriliser', { state: 'inService', since: at('07:00') }), ['1 good'])
  assert.deepEqual(found('steamSteriliser'), ['1 good'])
  assert.deepEqual(found('steamSteriliser', {}, 3), [])
  assert.deepEqual(found('steamSteriliser', { state: 'withdrawn', since: at('09:00') }), [])
})

test('recall-stops-machine', () => {
  const load = knownAs('load', 'load:1', { machine: 'machine:s' })
  const machine = knownAs('machine', 'machine:s')
  const opened = entered('recall-opened', { recall: 'recall:1', load: 'load:1', why: 'notice', defectProven: false })
  assert.equal(findingsOf(recallStopsMachine, { known: [load, machine] }, opened).length, 1)
})

test('manager-remains', () => {
  const ann = knownAs('person', 'person:ann', { name: 'Ann', roles: ['manager', 'theatre'] })
  const left = entered('person-left', { person: 'person:ann' })
  const as = (...roles: ('manager' | 'theatre')[]) =>
    entered('person-registered', { person: 'person:ann', name: 'Ann', roles })
  const alone = { known: [ann], managers: ['person:ann'] as const }
  assert.equal(findingsOf(managerRemains, alone, left)[0]?.weight, 'stop')
  assert.equal(findingsOf(managerRemains, alone, as('theatre'))[0]?.weight, 'stop')
  assert.deepEqual(findingsOf(managerRemains, alone, as('manager')), [])
  const two = { known: [ann], managers: ['person:ann', 'person:bob'] as const }
  assert.deepEqual(findingsOf(managerRemains, two, left), [])
  assert.deepEqual(findingsOf(managerRemains, two, as('theatre')), [])
  const nurse = knownAs('person', 'person:ann', { name: 'Ann', roles: ['theatre'] })
  assert.deepEqual(findingsOf(managerRemains, { known: [nurse] }, left), [])
  const withdrawn = entered('entry-withdrawn', { why: 'entered twice' })
  const registered = { corrected: as('manager') }
  assert.equal(findingsOf(managerRemains, { ...alone, ...registered }, withdrawn)[0]?.weight, 'stop')
  assert.deepEqual(findingsOf(managerRemains, { ...two, ...registered }, withdrawn), [])
  assert.deepEqual(findingsOf(managerRemains, { ...alone, corrected: left }, withdrawn), [])
})

test('who and when: people who left, late entries, the future', () => {
  const gone = knownAs('person', 'person:ann', { name: 'Ann', left: true })
  assert.equal(findingsOf(enteredBySomeoneHere, { known: [gone] }, store()).length, 1)
  const excepted = { ...store(), exception: { allowedBy: 'person:ann', rules: ['x'], why: 'because of it' } } as never
  assert.equal(findingsOf(exceptionBySomeoneHere, { known: [gone] }, excepted)[0]?.weight, 'stop')
  assert.equal(findingsOf(exceptionBySomeoneHere, {}, excepted).length, 1)
  assert.deepEqual(findingsOf(exceptionBySomeoneHere, {}, store()), [])
  const madeWhen = (time: string) => ({ ...store(), id: idMadeAt(Date.parse(time)) })
  assert.equal(findingsOf(enteredInTime, {}, madeWhen('2026-11-26T03:00:00.000Z'))[0]?.weight, 'note')
  assert.deepEqual(findingsOf(enteredInTime, {}, madeWhen('2026-11-26T00:00:00.000Z')), [])
  assert.equal(findingsOf(notInTheFuture, { now: at('11:54') }, store()).length, 1)
  assert.deepEqual(findingsOf(notInTheFuture, { now: at('11:55') }, store()), [])
})

test('steps-in-order compares with the step before', () => {
  assert.deepEqual(findingsOf(stepsInOrder, { known: [released] }, store('10:30')), [])
  assert.match(
    findingsOf(stepsInOrder, { known: [released] }, store('09:30'))[0]?.says ?? '',
    /before the load was built/,
  )
})

test('limit-change-is-sound: exists, right type, within bounds', () => {
  const change = (limit: string, value: number | string | boolean) =>
    findingsOf(
      limitChangeIsSound,
      {},
      entered('limit-changed', { policy: 'policy:unit', limit, value, reason: 'we tried it' }),
    )
  assert.deepEqual(change('soak-caution-minutes', 30), [])
  assert.match(change('no-such-limit', 30)[0]?.says ?? '', /no limit named/)
  assert.match(change('soak-caution-minutes', 'thirty')[0]?.says ?? '', /wanted a number/)
  assert.equal(change('repeats-needed', 1)[0]?.limit, '3 to 10 cycles')
  assert.deepEqual(change('inside-indicator-types', '5, 6'), [])
  assert.equal(change('inside-indicator-types', '1').length, 1)
  assert.deepEqual(change('recall-on-single-positive', true), [])
})
