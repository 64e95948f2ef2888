import assert from 'node:assert/strict'
import { test } from 'node:test'
import { RoadUnit } from '../../tests/support/road-unit.ts'
import type { SubjectId } from './subject.ts'
import { trace } from './tracing/trace.ts'

/** One load of two packs; one is used in a case that gets a wound, then goes round again. */
async function story(): Promise<RoadUnit> {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [a, b] = [await unit.pack('a'), await unit.pack('b')]
  const load = await unit.load('1', [a, b], { biological: 'negative' })
  await unit.release(load, [a, b])
  const booked = { patient: 'p', procedure: 'appendectomy', theatre: 'one', plannedAt: unit.now, implantPlanned: false }
  await unit.say('case-booked', { case: 'case:1', surgeon: 'person:sam', ...booked })
  const seen = { outsideIndicator: 'changed', insideIndicator: 'changed', condition: 'intact' } as const
  await unit.say('pack-opened', { round: a, case: 'case:1', ...seen })
  await unit.say('use-ended', { round: 'round:a-2', set: 'set:a', case: 'case:1', previousRound: a })
  const wound = { onsetAt: unit.now, depth: 'deep', signs: 'pus', culture: 'pending', acidFast: 'pending' } as const
  await unit.say('wound-noted', { wound: 'wound:1', case: 'case:1', ...wound })
  return unit
}

async function found(unit: RoadUnit, start: SubjectId, direction: 'back' | 'forward' | 'both') {
  const { nodes } = await trace(unit.record, start, direction)
  return Object.fromEntries(nodes.map((node) => [node.subject, node.distance]))
}

test('trace back from a wound names its packs, their load, wash, steriliser, set and people, and stops there', async () => {
  assert.deepEqual(await found(await story(), 'wound:1', 'back'), {
    'wound:1': 0,
    'case:1': -1,
    'person:ann': -1,
    'round:a': -2,
    'person:sam': -2,
    'load:1': -3,
    'wash:a': -3,
    'set:a': -3,
    'machine:vac': -4,
  })
})

test('trace forward from a load names its packs, cases and wounds', async () => {
  assert.deepEqual(await found(await story(), 'load:1', 'forward'), {
    'load:1': 0,
    'round:a': 1,
    'round:b': 1,
    'case:1': 2,
    'wound:1': 3,
  })
})

test('trace forward from a case names the round that its use began; back from that round it names the case', async () => {
  const unit = await story()
  assert.equal((await found(unit, 'case:1', 'forward'))['round:a-2'], 1)
  const back = await found(unit, 'round:a-2', 'back')
  assert.equal(back['case:1'], -1)
  assert.equal(back['round:a'], -1)
  // The patient before and the round before are where a trace ends.
  assert.equal(back['load:1'], undefined)
})

test('trace from a steriliser lists its loads up to the bound and says that there are more', async () => {
  const unit = await story()
  for (const name of ['2', '3', '4']) await unit.load(name, [])
  const all = await trace(unit.record, 'machine:vac', 'forward')
  assert.equal(all.nodes.filter((node) => node.subject.startsWith('load:')).length, 4)
  assert.deepEqual(all.more, [])
  const few = await trace(unit.record, 'machine:vac', 'forward', { links: 2, levels: 8 })
  assert.deepEqual(
    few.nodes.filter((node) => node.subject.startsWith('load:')).map((node) => node.subject),
    ['load:4', 'load:3'],
  )
  assert.deepEqual(few.more, ['machine:vac'])
})

test('trace both ways gives titles that people can read, and the entries that made the links', async () => {
  const unit = await story()
  const { nodes, links } = await trace(unit.record, 'round:a', 'both')
  const titles = Object.fromEntries(nodes.map((node) => [node.subject, node.title]))
  assert.equal(titles['round:a'], 'Round a of a')
  assert.equal(titles['load:1'], 'Load 1 on vac')
  assert.equal(titles['case:1'], 'Case 1: appendectomy, one')
  assert.equal(titles['wound:1'], 'Wound 1, deep')
  const ids = new Set(unit.record.entries.map((entry) => entry.id))
  assert.ok(links.length > 8 && links.every((link) => ids.has(link.entry)))
  assert.deepEqual((await trace(unit.record, 'round:nobody', 'both')).nodes, [
    { subject: 'round:nobody', standing: null, title: 'nobody', distance: 0, at: null },
  ])
})
