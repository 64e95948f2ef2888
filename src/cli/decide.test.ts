import assert from 'node:assert/strict'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { topics } from '#road/deciding/topics.ts'
import { captured } from './captured.suite.ts'
import { runDecide } from './decide.ts'

const folder = await mkdtemp(join(tmpdir(), 'nilgrowth-decide-'))
after(() => rm(folder, { recursive: true }))

async function run(args: string[], stdin = '') {
  const streams = captured(stdin)
  const code = await runDecide(args, streams.io)
  return { code, out: streams.out(), err: streams.err() }
}

const hernia = { topic: 'wound-class', given: { procedures: ['inguinalHernia'] } }

test('decide list names every topic; with --json it carries the schema of the facts', async () => {
  const { code, out } = await run(['list'])
  assert.equal(code, 0)
  const names = out
    .trimEnd()
    .split('\n')
    .map((line) => line.split(' ')[0])
  assert.deepEqual(
    names,
    topics.map(({ topic }) => topic),
  )
  const list: unknown = JSON.parse((await run(['list', '--json'])).out)
  assert.ok(Array.isArray(list))
  assert.partialDeepStrictEqual(
    list.find((each) => Reflect.get(each, 'topic') === 'wound-class'),
    {
      given: { type: 'object', required: ['procedures'] },
    },
  )
})

test('decide reads a case from a file or from standard input, and a list gives a list', async () => {
  const file = join(folder, 'case.json')
  await writeFile(file, JSON.stringify(hernia))
  const { code, out, err } = await run([file])
  assert.equal(code, 0, err)
  assert.partialDeepStrictEqual(JSON.parse(out), { topic: 'wound-class', decision: 'I' })
  assert.equal((await run(['-', '--json'], JSON.stringify(hernia))).out, out)
  const several: unknown = JSON.parse((await run(['-'], JSON.stringify([hernia, hernia]))).out)
  assert.deepEqual(several, [JSON.parse(out), JSON.parse(out)])
  assert.match((await run([file, '--text'])).out, /^wound-class: I\n/)
})

const refusals: readonly (readonly [string, string[], string, RegExp])[] = [
  ['an unknown topic', ['-'], '{"topic":"tea","given":{}}', /^topic: wanted one of .*, current value is "tea"\n$/],
  [
    'a fact of the wrong kind',
    ['-'],
    '{"topic":"wound-class","given":{"procedures":["tea"]}}',
    /^given\.procedures\[0\]: wanted one of [^\n]*, current value is "tea"\n$/,
  ],
  [
    'a fact too many',
    ['-'],
    '{"topic":"wound-class","given":{"procedures":["other"],"x":1}}',
    /^given\.x: wanted no such/,
  ],
  ['no topic', ['-'], '{"given":{}}', /^topic: wanted string, current value is missing\n$/],
  ['the second of a list', ['-'], JSON.stringify([hernia, { topic: 'tea', given: {} }]), /^\[1\]\.topic: wanted/],
  ['not JSON', ['-'], 'tea', /^input: wanted JSON/],
  ['no such file', [join(folder, 'none.json')], '', /^file: wanted a file that can be read/],
  ['an unknown flag', ['-', '--loud'], '', /^arguments: wanted decide list/],
]

for (const [name, args, input, line] of refusals) {
  test(`decide refuses ${name} with one line and exit 2`, async () => {
    const { code, out, err } = await run(args, input)
    assert.deepEqual({ code, out }, { code: 2, out: '' })
    assert.match(err, line)
    assert.equal(err.split('\n').length, 2)
  })
}

test('decide --batch answers each line and goes on after a bad one', async () => {
  const { code, out } = await run(
    ['--batch'],
    `${JSON.stringify({ id: 1, ...hernia })}\n[]\n{"id":2,"topic":"tea","given":{}}\n`,
  )
  assert.equal(code, 0)
  const answers = out
    .trimEnd()
    .split('\n')
    .map((line): unknown => JSON.parse(line))
  assert.partialDeepStrictEqual(answers, [{ id: 1, decision: 'I' }, { id: null }, { id: 2 }])
})
