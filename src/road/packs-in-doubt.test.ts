import assert from 'node:assert/strict'
import { test } from 'node:test'
import { RoadUnit } from '../../tests/support/road-unit.ts'
import type { EntryId } from './entry.ts'
import type { SubjectId } from './subject.ts'
import { packsInDoubt } from './storing/packs-in-doubt.ts'

interface Story {
  readonly unit: RoadUnit
  readonly round: SubjectId<'round'>
  readonly load: SubjectId<'load'>
}

async function stored(): Promise<Story> {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const round = await unit.pack('a')
  const load = await unit.load('one', [round])
  assert.equal((await unit.release(load, [round])).kept, true)
  await unit.say('pack-stored', { round, place: 'shelf' })
  return { unit, round, load }
}

async function doubts({ unit, round }: Story): Promise<readonly string[]> {
  const rounds = [...(await unit.record.known([round])).values()]
  return ((await packsInDoubt(unit.record, rounds, unit.now)).get(round) ?? []).map((each) => each.rule)
}

const last = ({ unit }: Story, kind: string): EntryId => {
  const found = unit.record.entries.findLast((entry) => entry.kind === kind)
  assert.ok(found)
  return found.id
}

test('a pack on the shelf whose proof stands is in no doubt', async () => {
  assert.deepEqual(await doubts(await stored()), [])
})

const changes: readonly (readonly [string, string, (story: Story) => Promise<unknown>])[] = [
  [
    'the cycle is corrected to not met',
    'released-still-proven',
    async (story) => {
      const id = last(story, 'cycle-logged')
      const logged = story.unit.record.entries.find((entry) => entry.id === id)
      assert.ok(logged?.kind === 'cycle-logged')
      const body = { ...logged.body, report: { ...logged.body.report, verdict: 'notMet' as const } }
      await story.unit.say('cycle-logged', body, { corrects: id })
    },
  ],
  ['the air-removal test fails later that day', 'released-still-proven', ({ unit }) => unit.airRemoval('failed')],
  [
    'an indicator of the load is read as failed',
    'released-still-proven',
    ({ unit, load }) => unit.say('chemical-read', { load, where: 'challengeDevice', type: '5', result: 'failed' }),
  ],
  [
    'the load is moved to a machine that is no steriliser',
    'released-still-proven',
    async (story) => {
      const { unit, load, round } = story
      await unit.say('machine-registered', {
        machine: 'machine:washer',
        name: 'Washer',
        type: 'washer',
        airRemoval: 'none',
        chamberLitres: 200,
        programs: ['134'],
      })
      const built = unit.record.entries.findLast((entry) => entry.kind === 'load-built')
      assert.ok(built?.kind === 'load-built' && built.body.load === load && built.body.rounds.includes(round))
      // At the time that it had: the decision came after it and still names this load.
      const id = '019e0000-0000-7000-8000-0000000000aa' as EntryId
      unit.record.keep({ ...built, id, corrects: built.id, body: { ...built.body, machine: 'machine:washer' } })
    },
  ],
  ['its biological indicator grows', 'opened-under-no-recall', ({ unit, load }) => unit.read(load, 'growth')],
]

for (const [name, rule, change] of changes) {
  test(`a pack on the shelf is in doubt once ${name}`, async () => {
    const story = await stored()
    await change(story)
    const found = await doubts(story)
    assert.ok(found.includes(rule), found.join(', '))
  })
}
