import assert from 'node:assert/strict'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { runMain } from '#cli/main.ts'
import { programItself } from '#journal/program.ts'
import { entryOf } from './hand.ts'

interface Ran {
  readonly code: number
  readonly out: string
  readonly err: string
}

/** Runs a command as the shell would, on a record of its own. */
async function run(file: string, args: readonly string[], stdin = ''): Promise<Ran> {
  let out = ''
  let err = ''
  const stream = (async function* () {
    yield stdin
  })()
  const io = {
    stdin: stream,
    stdout: { write: (text: string) => (out += text) },
    stderr: { write: (text: string) => (err += text) },
  }
  return { code: await runMain([...args, '--data', file], io), out, err }
}

const newFile = (): string => join(mkdtempSync(join(tmpdir(), 'nilgrowth-cli-')), 'unit.sqlite')
const asLines = (values: readonly unknown[]): string => values.map((value) => `${JSON.stringify(value)}\n`).join('')
const linesOf = (text: string): Record<string, unknown>[] =>
  text
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>)

const first = { by: programItself }
const beginning = [
  entryOf('unit-opened', '06:00', { unit: 'unit:unit', name: 'Unit', demonstration: false, timeZone: 'UTC' }, first),
  entryOf('person-registered', '06:01', { person: 'person:ada', name: 'Ada', roles: ['manager'] }, first),
  entryOf('machine-registered', '06:02', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 60,
    programs: ['porous-134'],
  }),
  entryOf('load-built', '07:00', {
    load: 'load:l1',
    machine: 'machine:s1',
    program: 'porous-134',
    purpose: 'biologicalTest',
    rounds: [],
  }),
]
const growth = entryOf('biological-read', '17:00', {
  load: 'load:l1',
  lot: 'B',
  result: 'growth',
  control: { lot: 'B', result: 'growth' },
  incubatedHours: 24,
})
/** Far above what the rules allow. */
const tooLoose = entryOf('limit-changed', '17:30', {
  policy: 'policy:unit',
  limit: 'leak-kpa-per-minute',
  value: 99,
  reason: 'The seal is old and leaks',
})

test('record: lines in, outcomes out in the same order; a repeat changes nothing', async () => {
  const file = newFile()
  const recorded = await run(file, ['record'], asLines(beginning))
  assert.equal(recorded.code, 0, recorded.out + recorded.err)
  assert.deepEqual(
    linesOf(recorded.out).map(({ line, outcome }) => [line, outcome]),
    [
      [1, 'kept'],
      [2, 'kept'],
      [3, 'kept'],
      [4, 'kept'],
    ],
  )
  const again = await run(file, ['record'], JSON.stringify(beginning, null, 2))
  assert.equal(again.code, 0)
  assert.deepEqual(new Set(linesOf(again.out).map(({ outcome }) => outcome)), new Set(['alreadyKept']))
})

test('record: exit 3 when any was refused, 2 when any could not be used', async () => {
  const file = newFile()
  await run(file, ['record'], asLines([...beginning, growth]))
  const judged = await run(file, ['judge'], JSON.stringify(tooLoose))
  assert.equal(judged.code, 3, judged.out)
  const refused = await run(file, ['record'], JSON.stringify(tooLoose))
  assert.equal(refused.code, 3, refused.out)
  assert.equal(linesOf(refused.out)[0]?.['outcome'], 'refused')
  const broken = await run(file, ['record'], `${JSON.stringify(tooLoose)}\n{bad\n{"id": 1}\n`)
  assert.equal(broken.code, 2)
  assert.deepEqual(
    linesOf(broken.out).map(({ outcome }) => outcome),
    ['refused', 'unusable', 'unusable'],
  )
})

test('record: input that is empty or no JSON is told with what was wanted, what came and what to do', async () => {
  const file = newFile()
  await run(file, ['record'], asLines(beginning))
  for (const nothing of ['', '\n \n']) {
    // oxlint-disable-next-line no-await-in-loop: one after the other
    const { code, out, err } = await run(file, ['record'], nothing)
    assert.deepEqual([code, out], [2, ''])
    assert.match(
      err,
      /^input: wanted at least one entry as JSON .* current value is empty\. Nothing was written\. Send entries/,
    )
  }
  const { code, out } = await run(file, ['record'], 'pack opened at ten')
  assert.equal(code, 2)
  const [told] = linesOf(out) as [{ problem: { title: string; remedy: string; problems: { current: string }[] } }]
  assert.equal(told.problem.title, 'The input is not JSON')
  assert.match(told.problem.problems[0]?.current ?? '', /^"pack opened at ten" \(/)
  assert.match(told.problem.remedy, /^Send each entry as a JSON object on a line of its own/)
  // An empty list is an answer to a question nobody asked: it is no silence.
  assert.match((await run(file, ['record'], '[]')).err, /current value is empty/)
})

test('known, trace and recall say the same as the API, for people and as JSON', async () => {
  const file = newFile()
  await run(file, ['record'], asLines([...beginning, growth]))
  const one = await run(file, ['known', 'load:l1', '--json'])
  assert.equal((JSON.parse(one.out) as { standing: string }).standing, 'failed')
  const then = await run(file, ['known', 'load:l1', '--at', '4', '--json'])
  assert.equal((JSON.parse(then.out) as { standing: string }).standing, 'built')
  const kind = await run(file, ['known', '--kind', 'load', '--standing', 'failed,built', '--json'])
  assert.deepEqual(
    linesOf(kind.out).map(({ subject }) => subject),
    ['load:l1'],
  )
  assert.match((await run(file, ['known', '--kind', 'machine'])).out, /^machine:s1\tinService\tsince .*Steriliser 1\n$/)
  assert.match((await run(file, ['trace', 'recall:l1', '--direction', 'back'])).out, /^-2\tmachine:s1/m)
  assert.match((await run(file, ['recall'])).out, /^recall:l1\topen/)
  const recall = await run(file, ['recall', 'recall:l1', '--json'])
  assert.equal((JSON.parse(recall.out) as { failed: string }).failed, 'load:l1')
})

const wrong: readonly (readonly [readonly string[], number, RegExp])[] = [
  [['known'], 2, /wanted a subject or --kind/],
  [['known', 'tea'], 2, /subject: wanted KIND:KEY, current value is "tea"/],
  [['known', 'load:none'], 1, /subject: wanted one that is known, current value is "load:none"/],
  [['known', 'load:l1', '--at', 'x'], 2, /--at: wanted the number of an entry/],
  [['known', '--kind', 'tea'], 2, /--kind: wanted one of/],
  [['trace', 'load:l1', '--direction', 'up'], 2, /--direction: wanted one of back, forward, both/],
  [['recall', 'load:l1'], 2, /recall: wanted recall:KEY/],
  [['record', 'more'], 2, /wanted at most 0/],
  [['known', 'load:l1', '--colour', 'red'], 2, /colour/],
]
const chartSet = entryOf('chart-set', '08:00', {
  chart: 'chart:all',
  name: 'All operations',
  procedures: [],
  usualRate: 0.01,
  raisedRate: 0.03,
  falseAlarmYears: 5,
  operationsPerYear: 400,
  headStart: true,
  riskAdjusted: false,
  why: 'The first chart',
})

test('wounds chart: rate, design and alarm of one chart, for people and as JSON', async () => {
  const file = newFile()
  assert.equal((await run(file, ['record'], asLines([...beginning, chartSet]))).code, 0)
  const told = await run(file, ['wounds', 'chart', 'all'])
  assert.equal(told.code, 0, told.err)
  // Design table of the statistics: 1 % against 3 %, a false alarm in 2,000: limit 2.758, a rise seen after 119 with head start.
  assert.match(told.out, /limit 2\.758\b.*a false alarm in 200[0-3] operations.*a rise seen after 119/)
  assert.match(told.out, /in the first year 23\.6 %/)
  assert.match(told.out, /^in words\tone false alarm in about \d+(\.\d)? years at \d+ operations a year$/m)
  assert.match(told.out, /^alarm\tnone stands$/m)
  const json = await run(file, ['wounds', 'chart', 'chart:all', '--json'])
  assert.partialDeepStrictEqual(JSON.parse(json.out), {
    chart: { id: 'chart:all' },
    rate: { operations: 0 },
    path: { alarms: [] },
  })
  const none = await run(file, ['wounds', 'chart', 'none'])
  assert.equal(none.code, 2)
  assert.match(none.err, /wanted a chart that is known, current value is "none"/)
})

test('bad arguments: one clear line and the usage', async () => {
  const file = newFile()
  await run(file, ['record'], asLines(beginning))
  for (const [args, code, says] of wrong) {
    const ran = await run(file, args)
    assert.equal(ran.code, code, args.join(' '))
    assert.match(ran.err, says)
    assert.equal(ran.out, '')
  }
})

test('a record that is not there is not made by asking', async () => {
  const ran = await run(newFile(), ['known', 'load:l1'])
  assert.equal(ran.code, 1)
  assert.match(ran.err, /--data: wanted the file of a record/)
})
