import assert from 'node:assert/strict'
import { test } from 'node:test'
import { roundStanding, takenBackFromBath } from '#road/round.ts'
import type { SubjectId } from '#road/subject.ts'
import { nextStepOf } from '#web/pages/round/next-step.ts'
import { BathUnit } from '../support/bath-unit.ts'
import { cleanAndDry, handWash } from '../support/road-history-parts.ts'

/* A set out of a bath has no load that could lack anything: when a recall takes it back, it goes to the wash. */

test('given a bath set that a recall took back, then it leads to the wash room, goes into no load, and is treated anew', async () => {
  const bath = await BathUnit.open()
  const { unit } = bath
  const first = await bath.ready('a')
  const known = async (id: SubjectId<'round'>) => (await unit.record.known([id])).get(id) ?? assert.fail(id)
  assert.equal(takenBackFromBath(await known(first)), false)
  await unit.say('bath-recalled', { recall: 'recall:b', bath: 'bath:b', why: 'Wrong can', wholeBath: true })
  await unit.say('recall-accounted', { recall: 'recall:b', round: first, outcome: 'pulledFromShelf' })
  assert.deepEqual(nextStepOf(await known(first)), {
    says: 'Taken back by a recall: wash and treat it anew.',
    action: 'To the wash room',
    to: '/wash-room?round=a',
  })
  const machine = { machine: 'machine:vac', program: '134', purpose: 'goods' } as const
  const built = await unit.say('load-built', { load: 'load:x', ...machine, rounds: [first] })
  assert.match(
    built.findings.find(({ rule }) => rule === 'load-of-fresh-packs')?.says ?? '',
    /taken back by a recall, and is to be washed and treated anew/,
  )
})

test('given a bath set that a recall took back, when it begins a round and is treated anew, then it is ready again', async () => {
  const bath = await BathUnit.open()
  const { unit } = bath
  const first = await bath.ready('a')
  await unit.say('bath-recalled', { recall: 'recall:b', bath: 'bath:b', why: 'Wrong can', wholeBath: true })
  await unit.say('recall-accounted', { recall: 'recall:b', round: first, outcome: 'pulledFromShelf' })
  const next: SubjectId<'round'> = 'round:a2'
  await unit.say('reprocessing-started', { round: next, set: 'set:a', because: 'recalled', previousRound: first })
  await unit.say('wash-recorded', { wash: 'wash:a2', rounds: [next], how: handWash })
  await unit.say('inspected', { round: next, ...cleanAndDry })
  await bath.warm()
  await bath.strip()
  await bath.immerse('immersion:a2', next)
  const rounds = await unit.record.known([first, next])
  assert.deepEqual(
    [first, next].map((id) => rounds.get(id)).map((round) => round && roundStanding(round)),
    ['over', 'bathReady'],
  )
})
