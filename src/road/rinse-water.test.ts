import assert from 'node:assert/strict'
import { test } from 'node:test'
import { BathUnit } from '../../tests/support/bath-unit.ts'
import { against } from '../../tests/support/road-unit.ts'
import type { EntryId } from './entry.ts'
import type { Bodies } from './kinds.ts'
import { trace } from './tracing/trace.ts'

/*
 * The water of the last rinse after a bath is judged by the last samples of its outlet. Rule: 'rinsed-with-good-water'.
 * Limit: at most 10 CFU/mL in the last rinse (policy default, from ANSI/AAMI ST108).
 */

const rule = 'rinsed-with-good-water'
type Figures = Bodies['water-sampled']['figures']

async function withOutlet(...samples: readonly (readonly [Figures, string?])[]): Promise<BathUnit> {
  const bath = await BathUnit.open()
  const outlet = { outlet: 'outlet:sink', name: 'Sink 1', use: 'wash', treatment: 'none' } as const
  await bath.unit.say('outlet-registered', outlet)
  for (const [figures, organism] of samples) {
    const grew = organism === undefined ? {} : { organism }
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await bath.unit.say('water-sampled', { outlet: 'outlet:sink', figures: [...figures], ...grew })
  }
  return bath
}

const bacteria = (value: number): Figures => [{ property: 'bacteria', value }]
const hardness: Figures = [{ property: 'hardness', value: 0.5 }]
const atSink = { outlet: 'outlet:sink', water: 'filtered' } as const

const rows: readonly (readonly [
  string,
  readonly (readonly [Figures, string?])[],
  Partial<Bodies['bath-rinsed']>,
  boolean,
])[] = [
  ['a good sample', [[bacteria(3)]], atSink, true],
  ['too many bacteria', [[bacteria(60)]], atSink, false],
  ['too many bacteria, then alcohol and air', [[bacteria(60)]], { ...atSink, alcoholAndAir: true }, true],
  ['too many bacteria, and a newer good sample', [[bacteria(60)], [bacteria(3)]], atSink, true],
  ['too many bacteria, and a newer sample of the hardness alone', [[bacteria(60)], [hardness]], atSink, false],
  ['mycobacteria in few bacteria', [[bacteria(3), 'Mycobacterium chelonae']], atSink, false],
  ['bad water of an outlet that was not used', [[bacteria(60)]], { outlet: 'Bottle', water: 'sterile' }, true],
]

for (const [name, samples, rinsing, isReady] of rows) {
  test(`given ${name}, when a set is rinsed after its bath, then it is ${isReady ? '' : 'not '}found ready`, async () => {
    const bath = await withOutlet(...samples)
    await bath.ready('a', rinsing)
    const decided = bath.unit.record.entries.findLast((entry) => entry.kind === 'immersion-decided')
    assert.equal(decided !== undefined, isReady)
    const rinsed = bath.last('bath-rinsed').judgement.findings.filter((finding) => finding.rule === rule)
    const isBad = samples.length > 0 && (!isReady || rinsing.alcoholAndAir === true)
    assert.equal(
      rinsed.some((finding) => finding.weight === 'caution'),
      isBad,
      'the rinse itself is told of',
    )
  })
}

test('given an outlet that was never sampled, when a set is rinsed there, then that is noted', async () => {
  const bath = await withOutlet()
  await bath.ready('a', atSink)
  const found = bath.last('bath-rinsed').judgement.findings.filter((finding) => finding.rule === rule)
  assert.deepEqual(
    found.map((finding) => finding.weight),
    ['note'],
  )
})

test('given a set ready for use, when a sample from before its rinse comes back bad, then it is in doubt', async () => {
  const bath = await withOutlet([bacteria(3)])
  const sampled = bath.last('water-sampled')
  const round = await bath.ready('a', atSink)
  assert.deepEqual(await bath.doubted(), [])
  const id = '019e0000-0000-7000-8000-0000000000dd' as EntryId
  bath.unit.record.keep({ ...sampled, id, body: { ...sampled.body, figures: bacteria(200) } })
  assert.deepEqual(await bath.doubted(), [round])
  assert.ok(against((await bath.use(round)).findings).includes('treated-still-proven'))
})

test('given a set rinsed after its bath at an outlet of the register, when a set or its outlet is traced, then each leads to the other', async () => {
  const bath = await withOutlet([bacteria(3)])
  const round = await bath.ready('a', atSink)
  const { record } = bath.unit
  const links = await record.links({ end: 'from', subjects: ['immersion:a'], relations: ['rinsedAt'] })
  assert.equal(links.length, 3, 'each of the three rinses')
  assert.deepEqual([...new Set(links.map(({ to }) => to))], ['outlet:sink'])
  const back = await trace(record, round, 'back')
  assert.ok(back.nodes.some(({ subject }) => subject === 'outlet:sink'))
  const forward = await trace(record, 'outlet:sink', 'forward')
  assert.ok(forward.nodes.some(({ subject }) => subject === round))
})

test('given a rinse at an outlet that is only named, when it is kept, then it hangs on no outlet', async () => {
  const bath = await BathUnit.open()
  await bath.ready('a', { outlet: 'Bottle', water: 'sterile' })
  const { record } = bath.unit
  assert.deepEqual(await record.links({ end: 'from', subjects: ['immersion:a'], relations: ['rinsedAt'] }), [])
})
