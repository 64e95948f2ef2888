import assert from 'node:assert/strict'
import { test } from 'node:test'
import { workings } from '#workings/registry.ts'
import { captured } from './captured.suite.ts'
import { runMain } from './main.ts'
import { runWork } from './work.ts'

async function run(args: string[], ...chunks: readonly (string | Uint8Array)[]) {
  const streams = captured(...chunks)
  const code = await runWork(args, streams.io)
  return { code, out: streams.out(), err: streams.err() }
}

test('work list shows every id with its title', async () => {
  const { code, out } = await run(['list'])
  assert.equal(code, 0)
  const ids = out
    .trimEnd()
    .split('\n')
    .map((line) => line.split(' ')[0])
  assert.deepEqual(
    ids,
    workings.map(({ id }) => id),
  )
})

test('work list --json carries the schemas of input and output', async () => {
  const list: unknown = JSON.parse((await run(['list', '--json'])).out)
  assert.ok(Array.isArray(list))
  assert.equal(list.length, workings.length)
  assert.partialDeepStrictEqual(list[0], {
    id: 'saturation-pressure',
    input: { type: 'object', required: ['temperatureC'] },
    output: { type: 'object', required: ['pressureKPa', 'equation'] },
  })
})

test('work ID answers in JSON, even when the input comes in pieces', async () => {
  const bytes = new TextEncoder().encode('\uFEFF{"diameterMm": 2, "lengthMm": 1000}')
  const { code, out, err } = await run(['lumen-volume'], ...Array.from(bytes, (byte) => Uint8Array.of(byte)))
  assert.deepEqual({ code, out: JSON.parse(out), err }, { code: 0, out: { ml: Math.PI }, err: '' })
})

const refusals: readonly (readonly [string, string[], string, string])[] = [
  [
    'a field out of range',
    ['a0-hold-time'],
    '{"temperatureC": 60, "a0Seconds": 600}',
    'temperatureC: wanted number >= 65, current value is 60\n',
  ],
  [
    'a field that is missing',
    ['lumen-volume'],
    '{"diameterMm": 5}',
    'lengthMm: wanted number, current value is missing\n',
  ],
  [
    'an unknown field',
    ['standard-atmosphere'],
    '{"altitudeM": 0, "feet": 1}',
    'feet: wanted no such field, current value is 1\n',
  ],
  [
    'two wrong fields, still one line',
    ['lumen-volume'],
    '{}',
    'diameterMm: wanted number, current value is missing; lengthMm: wanted number, current value is missing\n',
  ],
  ['no input', ['lumen-volume'], '', 'input: wanted JSON, current value is empty\n'],
  [
    'an unknown id',
    ['lumen-size'],
    '{}',
    'working: wanted an id that "nilgrowth work list" shows, current value is "lumen-size"\n',
  ],
]
for (const [name, args, input, line] of refusals) {
  test(`work gives exit 2 and one line: ${name}`, async () => {
    assert.deepEqual(await run(args, input), { code: 2, out: '', err: line })
  })
}

test('work gives exit 2 and one line for text that is not JSON', async () => {
  const { code, out, err } = await run(['lumen-volume'], '{"diameterMm":\n 5,,')
  assert.deepEqual({ code, out }, { code: 2, out: '' })
  assert.match(err, /^input: wanted JSON, current value is "\{.*\n$/)
  assert.equal(err.split('\n').length, 2)
})

test('work refuses JSON that is too deep to be read, one by one and in a batch', async () => {
  const deep = '['.repeat(50_000) + ']'.repeat(50_000)
  const one = await run(['a0'], deep)
  assert.deepEqual(one, { code: 2, out: '', err: 'input: wanted at most 64 levels, current value is deeper\n' })
  const batch = await run(['--batch'], `${deep}\n`)
  assert.match(batch.out, /line 1: input: wanted at most 64 levels/)
})

test('work says how it is used when the arguments are not understood', async () => {
  for (const args of [[], ['list', '--xml'], ['lumen-volume', 'x'], ['--batch', 'x']]) {
    const { code, err } = await run(args)
    assert.equal(code, 2)
    assert.match(err, /^arguments: wanted work list \[--json\]/)
  }
})

test('work --batch answers in order and goes on after a bad line', async () => {
  const lines = [
    '{"id": "a", "working": "standard-atmosphere", "input": {"altitudeM": 0}}',
    '{"id": "b", "working": "standard-atmosphere", "input": {"altitudeM": "high"}}',
    '{broken',
    '',
    '[1]',
    '{"id": 5, "working": "no-such", "input": {}}',
    '{"id": "c", "working": "standard-atmosphere"}',
    '{"working": "standard-atmosphere", "input": {"altitudeM": 0}}',
  ].join('\r\n')
  // Cut in the middle of a line, as a pipe may.
  const { code, out } = await run(['--batch'], lines.slice(0, 30), lines.slice(30))
  const answers: unknown[] = out
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line))
  assert.equal(code, 0)
  assert.equal(answers.length, 7)
  assert.deepEqual(answers[0], { id: 'a', output: { pressureKPa: 101.325 } })
  assert.deepEqual(answers[1], { id: 'b', error: 'altitudeM: wanted number, current value is "high"' })
  assert.match(JSON.stringify(answers[2]), /^\{"id":null,"error":"line 3: input: wanted JSON/)
  assert.match(JSON.stringify(answers[3]), /^\{"id":null,"error":"line 5: input: wanted an object/)
  assert.deepEqual(answers[4], {
    id: 5,
    error: 'working: wanted an id that "nilgrowth work list" shows, current value is "no-such"',
  })
  assert.deepEqual(answers[5], { id: 'c', error: 'input: wanted object, current value is missing' })
  assert.deepEqual(answers[6], { id: null, output: { pressureKPa: 101.325 } })
})

test('work --batch answers a line before the next one comes', async () => {
  const streams = captured()
  const seen: string[] = []
  async function* slow() {
    for (const id of [1, 2, 3]) {
      yield `${JSON.stringify({ id, working: 'standard-atmosphere', input: { altitudeM: 0 } })}\n`
      seen.push(streams.out())
    }
  }
  await runWork(['--batch'], { ...streams.io, stdin: slow() })
  assert.deepEqual(
    seen.map((text) => text.split('\n').length - 1),
    [1, 2, 3],
  )
})

test('the dispatcher shows help, finds commands and refuses others in one line', async () => {
  const help = captured()
  assert.equal(await runMain([], help.io), 0)
  assert.match(help.out(), /^Usage: nilgrowth COMMAND/)
  assert.match(help.out(), /\n {2}work {2}/)
  const found = captured()
  assert.equal(await runMain(['work', 'list'], found.io), 0)
  const other = captured()
  assert.equal(await runMain(['wrok'], other.io), 2)
  assert.match(other.err(), /^command: wanted one of serve, .*work, .* or help, current value is "wrok"\n$/)
})
