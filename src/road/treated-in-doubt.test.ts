import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import type { Celsius } from '#units/quantities.ts'
import { BathUnit, opa, peroxide } from '../../tests/support/bath-unit.ts'
import { against } from '../../tests/support/road-unit.ts'
import { lotStanding } from './consumables/lot-fold.ts'
import type { EntryId, SentEntry } from './entry.ts'
import { instant, millis } from './instant.ts'
import type { Bodies } from './kinds.ts'
import { policyFrom } from './policy.ts'
import { readEntry } from './read-entry.ts'
import { roundStanding } from './round.ts'
import { packsInDoubt } from './storing/packs-in-doubt.ts'
import type { SubjectId } from './subject.ts'
import { recallExtent } from './tracing/recall-extent.ts'

/*
 * What came ready from a bath rests on its strip, its bath and its rinses. Rule: 'treated-still-proven'. Values: label of
 * ortho-phthalaldehyde 0.55 % as quoted in the product table (12 min at 20 °C, 14 days, a strip for each use).
 */

const rule = 'treated-still-proven'

test('given a set ready from a good bath, when nothing changes, then it is in no doubt and is opened without an alarm', async () => {
  const bath = await BathUnit.open()
  const round = await bath.ready('a')
  assert.deepEqual(await bath.doubted(), [])
  assert.deepEqual(against((await bath.use(round)).findings), [])
  assert.deepEqual(await bath.doubted(), [])
})

const changes: readonly (readonly [string, (bath: BathUnit) => Promise<unknown>])[] = [
  ['its strip is corrected to failed', (bath) => bath.correct('strip-read', { result: 'fail' })],
  ['its strip is corrected to one read too late', (bath) => bath.correct('strip-read', { readAfterSeconds: 300 })],
  ['its strip is corrected to another bath', (bath) => bath.correct('strip-read', { bath: 'bath:other' })],
  [
    'the bottle of its strip is found bad',
    ({ unit }) => unit.say('lot-quality-controlled', { lot: 'lot:strips', result: 'failed', what: 'Three and three' }),
  ],
  ['its temperature is corrected to too cold', (bath) => bath.correct('bath-warmed', { celsius: 19 as Celsius })],
  [
    'its temperature is withdrawn',
    (bath) => bath.unit.say('entry-withdrawn', { why: 'not read' }, { corrects: bath.last('bath-warmed').id }),
  ],
  [
    'the bath turns out to be older than its days',
    (bath) => bath.correct('bath-poured', { activatedAt: instant(millis(bath.unit.now) - 15 * 86_400_000) }),
  ],
  ['the bath turns out to be past its expiry', (bath) => bath.correct('bath-poured', { expiresAt: instant(0) })],
  [
    'its product is corrected to one that makes no such claim',
    (bath) => bath.correct('bath-poured', { product: 'peracetic-0.2' }),
  ],
  ['a rinse is corrected to a shorter one', (bath) => bath.correct('bath-rinsed', { minutes: 0.2 })],
]

for (const [name, change] of changes) {
  test(`given a set ready from a bath, when ${name}, then it is in doubt at once, and opening it alarms`, async () => {
    const bath = await BathUnit.open()
    const round = await bath.ready('a')
    await change(bath)
    assert.deepEqual(await bath.doubted(), [round])
    assert.ok(against((await bath.use(round)).findings).includes(rule))
  })

  test(`given a set that was used after its bath, when ${name}, then it is named until a recall of the bath accounts for it`, async () => {
    const bath = await BathUnit.open()
    const round = await bath.ready('a')
    assert.deepEqual(against((await bath.use(round)).findings), [])
    await change(bath)
    assert.deepEqual(await bath.doubted(), [round])
    await bath.unit.say('use-ended', { round: 'round:a2', set: 'set:a', previousRound: round, case: 'case:c' })
    assert.deepEqual(await bath.doubted(), [round], 'also once the set went on')
    // Rinses are not the bath's: they are reached by the recall of the whole bath.
    const wholeBath = name.includes('rinse')
    const recalled = { recall: 'recall:b', bath: 'bath:b', why: 'The proof is gone', wholeBath } as const
    await bath.unit.say('bath-recalled', recalled)
    const extent = await recallExtent(bath.unit.record, 'recall:b', policyFrom(undefined))
    assert.deepEqual(
      extent?.packs.map((pack) => pack.round),
      [round],
    )
    await bath.unit.say('recall-accounted', { recall: 'recall:b', round, outcome: 'patientToBeFollowed' })
    assert.deepEqual(await bath.doubted(), [])
  })
}

test('given a set whose own strip passed, when the next strip fails, then it is in no doubt (H28)', async () => {
  const bath = await BathUnit.open()
  await bath.ready('seven')
  await bath.strip('fail')
  assert.deepEqual(await bath.doubted(), [])
})

test('given a failed strip, when a later one passes, then it clears nothing that was in the bath before or after', async () => {
  const bath = await BathUnit.open(peroxide)
  await bath.warm()
  await bath.strip()
  const first = await bath.treat('first')
  const second = await bath.treat('second')
  assert.deepEqual(await bath.doubted(), [])
  await bath.strip('fail')
  assert.deepEqual(await bath.doubted(), [second], 'the strip was read for the first use')
  await bath.strip('pass')
  const third = await bath.treat('third')
  assert.deepEqual(await bath.doubted(), [second, third])
  assert.ok(!(await bath.doubted()).includes(first))
})

test('given a set in a bath that asks for no strip each time, when a strip fails, then it is not found ready', async () => {
  const bath = await BathUnit.open(peroxide)
  await bath.warm()
  await bath.strip()
  await bath.treat('first')
  await bath.treat('second')
  const decided = bath.last('immersion-decided')
  await bath.strip('fail')
  const answer = await bath.unit.say('immersion-decided', decided.body)
  assert.deepEqual([answer.kept, against(answer.findings)], [false, [rule]])
})

test('given a strip corrected to failed, when it is kept, then it names the immersion that it was read for', async () => {
  const bath = await BathUnit.open()
  await bath.ready('a')
  const read = bath.last('strip-read')
  const answer = await bath.unit.say('strip-read', { ...read.body, result: 'fail' }, { corrects: read.id })
  assert.match(answer.findings.map(({ says }) => says).join(' '), /No passed strip speaks for a\. Open the recall/)
})

test('given a limit that is made stricter later, when a used set is looked at again, then the limit of its day decides', async () => {
  const bath = await BathUnit.open()
  await bath.use(await bath.ready('a'))
  const reason = 'The label of the new batch says so'
  const warmer = { policy: 'policy:unit', limit: `bath-${opa}-disinfect-manual-c`, value: 25, reason } as const
  const changed = await bath.unit.say('limit-changed', warmer)
  assert.deepEqual(against(changed.findings), [])
  assert.deepEqual(await bath.doubted(), [])
  const round = await bath.ready('b')
  assert.deepEqual(await bath.doubted(), [round])
})

/** A used set and one that waits, both spoken for by strips of a bottle that is found faulty, and the recall of that bottle. */
async function badBottle() {
  const bath = await BathUnit.open()
  const used = await bath.ready('used')
  await bath.use(used)
  const waiting = await bath.ready('waiting')
  await bath.unit.say('lot-withdrawn', { lot: 'lot:strips', because: 'faulty', why: 'Damp in the bottle' })
  assert.deepEqual(await bath.doubted(), [used, waiting])
  const recalled = { recall: 'recall:l', lot: 'lot:strips', why: 'Damp in the bottle' } as const
  assert.equal((await bath.unit.say('lot-recalled', recalled)).kept, true)
  const account = (round: SubjectId<'round'>, outcome: Bodies['recall-accounted']['outcome']) =>
    bath.unit.say('recall-accounted', { recall: 'recall:l', round, outcome })
  const close = () => bath.unit.say('recall-closed', { recall: 'recall:l', cause: 'damp', action: 'stored dry' })
  return { bath, used, waiting, account, close }
}

test('given a faulty bottle whose recall accounted for each set, when it is closed, then they are settled and the lot stays bad', async () => {
  const { bath, used, waiting, account, close } = await badBottle()
  assert.ok(against((await close()).findings).includes('closed-all-accounted'))
  await account(used, 'patientToBeFollowed')
  assert.deepEqual(await bath.doubted(), [waiting])
  await account(waiting, 'pulledFromShelf')
  assert.deepEqual(await bath.doubted(), [])
  assert.equal((await close()).kept, true)
  assert.deepEqual(await bath.doubted(), [])
  const lot = (await bath.unit.record.known(['lot:strips'])).get('lot:strips')
  assert.ok(lot)
  assert.equal(lotStanding(lot), 'rejected')
  assert.ok(against((await bath.strip('pass')).findings).includes('lot-fit-for-use'))
  // What was taken back is named as that, and nobody opens it.
  const rounds = [...(await bath.unit.record.known([waiting])).values()]
  const doubts = (await packsInDoubt(bath.unit.record, rounds, bath.unit.now)).get(waiting) ?? []
  assert.deepEqual(
    [rounds.map(roundStanding), doubts.map((each) => each.rule)],
    [['quarantined'], ['opened-under-no-recall']],
  )
  assert.deepEqual(against((await bath.use(waiting)).findings).toSorted(), ['opened-under-no-recall', rule])
})

test('given a faulty bottle, when an outcome does not fit or its recall is withdrawn, then nothing is settled', async () => {
  const { bath, used, waiting, account } = await badBottle()
  await account(used, 'pulledFromShelf')
  await account(waiting, 'patientToBeFollowed')
  assert.deepEqual(await bath.doubted(), [used, waiting])
  const again = await badBottle()
  await again.account(again.used, 'patientToBeFollowed')
  await again.account(again.waiting, 'discarded')
  assert.deepEqual(await again.bath.doubted(), [])
  const opened = again.bath.last('lot-recalled')
  await again.bath.unit.say('entry-withdrawn', { why: 'other bottle' }, { corrects: opened.id })
  assert.deepEqual(await again.bath.doubted(), [again.used, again.waiting])
})

test('given a set from a bath that was at fault as a whole, when its recall took it back and is closed, then it is not opened', async () => {
  const bath = await BathUnit.open()
  const round = await bath.ready('a')
  await bath.unit.say('bath-recalled', { recall: 'recall:b', bath: 'bath:b', why: 'Wrong can', wholeBath: true })
  await bath.unit.say('recall-accounted', { recall: 'recall:b', round, outcome: 'pulledFromShelf' })
  const closed = await bath.unit.say('recall-closed', { recall: 'recall:b', cause: 'wrong can', action: 'labelled' })
  assert.equal(closed.kept, true)
  assert.deepEqual(against((await bath.use(round)).findings), ['opened-under-no-recall'])
})

/* Older versions took a bath of any temperature. Such an entry stays; what it was read for is not evaluable. */

test('given a reading that no bath can have, when it is sent, then it is refused; kept by an older version, it is read', () => {
  const sent = { bath: 'bath:b', celsius: 212 }
  const head = { id: 'x', site: 'unit-a', kind: 'bath-warmed', by: 'person:ann', workstation: 'bench', body: sent }
  const entry = { ...head, happenedAt: instant(0) } as unknown as SentEntry
  assert.equal(readEntry(entry).kind, 'unusable')
  const kept = { ...entry, seq: 1 } as SentEntry
  assert.equal(readEntry(kept).kind, 'typed')
})

test('given a reading of 212 °C by an older version after one of 20 °C, when a set is treated, then the bath is not evaluable', async () => {
  const bath = await BathUnit.open()
  await bath.warm(20)
  const [good] = [bath.last('bath-warmed')]
  bath.unit.wait(0.1)
  const id = '019e0000-0000-7000-8000-0000000000e1' as EntryId
  bath.unit.record.keep({ ...good, id, happenedAt: bath.unit.now, body: { bath: 'bath:b', celsius: 212 as Celsius } })
  await bath.strip()
  const round = await bath.treat('a')
  const started = bath.last('immersion-started')
  const found = started.judgement.findings.find((each) => each.rule === 'bath-warm')
  assert.equal(found?.weight, 'notEvaluable')
  assert.ok(!bath.unit.record.entries.some((entry) => entry.kind === 'immersion-decided'), 'not found ready')
  assert.deepEqual(await bath.doubted(), [round])
  await bath.warm(20)
  await bath.strip()
  const next = await bath.treat('b')
  assert.ok(!(await bath.doubted()).includes(next), 'a new reading counts again')
})

test('given a bottle of which too few strips were tried, when its strip passes, then nothing is found ready by it', async () => {
  const bath = await BathUnit.open()
  const opened = bath.last('strip-bottle-opened')
  const few = { tried: 1, passed: 1 }
  await bath.unit.say('strip-bottle-opened', { ...opened.body, lot: 'lot:few', fullStrength: few })
  await bath.warm()
  const read = await bath.strip('pass', 'lot:few')
  assert.deepEqual(against(read.findings), ['strip-bottle-proven'])
  await bath.treat('a')
  assert.ok(!bath.unit.record.entries.some((entry) => entry.kind === 'immersion-decided'))
})

/*
 * Property: once a strip has failed, whatever was immersed since the last good strip is in doubt, in whatever order the
 * entries were kept.
 */
const life = fc.array(fc.constantFrom('pass', 'fail', 'use', 'use', 'badBottle'), { minLength: 1, maxLength: 6 })

test('no immersion since the last good strip is ever without doubt after a failed strip, in whatever order entries are kept', async () => {
  let doubted = 0
  const property = fc.asyncProperty(life, fc.infiniteStream(fc.nat()), async (happenings, order) => {
    const bath = await BathUnit.open(peroxide)
    await bath.unit.say('lot-quality-controlled', { lot: 'lot:other', result: 'failed', what: 'Three and three' })
    await bath.warm()
    for (const [index, each] of happenings.entries()) {
      /* oxlint-disable no-await-in-loop: one step after the other */
      if (each === 'use') await bath.treat(`u${index}`)
      else await bath.strip(each === 'fail' ? 'fail' : 'pass', each === 'badBottle' ? 'lot:other' : 'lot:strips')
      /* oxlint-enable no-await-in-loop */
    }
    // The same entries kept anew in another order.
    const kept = bath.unit.record.entries.map((entry) => ({ entry, rank: order.next().value ?? 0 }))
    const shuffled = await BathUnit.open(peroxide)
    const own = new Set(shuffled.unit.record.entries.map((entry) => entry.id))
    for (const { entry } of kept.toSorted((a, b) => a.rank - b.rank)) {
      if (!own.has(entry.id)) shuffled.unit.record.keep(entry)
    }
    shuffled.rounds.push(...bath.rounds)
    shuffled.unit.wait(24)
    const found = await shuffled.doubted()
    const firstFail = happenings.findIndex((each) => each === 'fail' || each === 'badBottle')
    const lastGood = happenings.slice(0, firstFail).lastIndexOf('pass')
    happenings.forEach((each, index) => {
      if (each !== 'use' || firstFail < 0) return
      const afterFail = happenings.slice(0, index).includes('fail')
      // The use that the good strip was read for is spoken for by it.
      const its = lastGood < 0 ? -1 : happenings.indexOf('use', lastGood)
      if (!afterFail && (index < lastGood || index > firstFail || index === its)) return
      if (!afterFail && happenings[firstFail] === 'badBottle' && isClearedAfter(happenings, index)) return
      assert.ok(found.includes(`round:u${index}`), `u${index} of ${happenings.join(' ')}`)
      doubted += 1
    })
  })
  await fc.assert(property, { numRuns: 60, seed: 20_261_126 })
  assert.ok(doubted > 15, `only ${doubted} immersions were in doubt`)
})

test('given a set that a recall took back, when it is treated anew and that bath was too cold, then it is in doubt again', async () => {
  const bath = await BathUnit.open()
  const { unit } = bath
  const round = await bath.ready('a')
  await unit.say('lot-withdrawn', { lot: 'lot:strips', because: 'faulty', why: 'Damp in the bottle' })
  await unit.say('lot-recalled', { recall: 'recall:l', lot: 'lot:strips', why: 'Damp in the bottle' })
  await unit.say('recall-accounted', { recall: 'recall:l', round, outcome: 'pulledFromShelf' })
  await unit.say('recall-closed', { recall: 'recall:l', cause: 'Damp', action: 'Stored dry' })
  await bath.warm()
  await bath.strip('pass', 'lot:other')
  await bath.immerse('immersion:again', round)
  assert.deepEqual(await bath.doubted(), [])
  await bath.correct('bath-warmed', { celsius: 15 as Celsius })
  assert.deepEqual(await bath.doubted(), [round])
  assert.ok(against((await bath.use(round)).findings).includes('treated-still-proven'))
})

/** A bad bottle proves nothing of the bath: a good strip read later still speaks, unless one has failed before it. */
function isClearedAfter(happenings: readonly string[], index: number): boolean {
  const next = happenings.slice(index + 1).find((each) => each === 'pass' || each === 'fail')
  return next === 'pass' && !happenings.slice(0, index).includes('fail')
}
