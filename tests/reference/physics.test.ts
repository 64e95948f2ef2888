import assert from 'node:assert/strict'
import { spawn } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { before, test } from 'node:test'
import { z } from 'zod'

const root = join(import.meta.dirname, '../..')

const Row = z.strictObject({
  id: z.string(),
  working: z.string(),
  input: z.unknown(),
  expected: z.record(z.string(), z.number()),
  tolerance: z.number(),
  source: z.string(),
})
const Answer = z.object({
  id: z.string(),
  output: z.record(z.string(), z.unknown()).optional(),
  error: z.string().optional(),
})

const rows = z
  .array(Row)
  .min(72)
  .parse(JSON.parse(await readFile(join(import.meta.dirname, 'checks/physics.json'), 'utf8')))

/** Runs the real command line as a process of its own. */
async function nilgrowth(args: readonly string[], stdin: string) {
  const child = spawn(process.execPath, [join(root, 'src/cli/main.ts'), ...args], { cwd: root })
  let out = ''
  let err = ''
  child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text))
  child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text))
  child.stdin.end(stdin)
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve))
  return { code, out, err }
}

let answers: readonly z.infer<typeof Answer>[] = []

before(async () => {
  const lines = rows.map(({ id, working, input }) => JSON.stringify({ id, working, input }))
  const { code, out, err } = await nilgrowth(['work', '--batch'], lines.join('\n'))
  assert.deepEqual({ code, err }, { code: 0, err: '' })
  answers = out
    .trimEnd()
    .split('\n')
    .map((line) => Answer.parse(JSON.parse(line)))
})

test('the batch answers every row, in order', () => {
  assert.deepEqual(
    answers.map(({ id }) => id),
    rows.map(({ id }) => id),
  )
})

for (const [index, { id, working, expected, tolerance, source }] of rows.entries()) {
  test(`${id} ${working}: ${source}`, () => {
    const answer = answers[index]
    assert.equal(answer?.error, undefined)
    assert.ok(Object.keys(expected).length > 0)
    for (const [field, wanted] of Object.entries(expected)) {
      const found = answer?.output?.[field]
      const close = typeof found === 'number' && Math.abs(found - wanted) <= tolerance
      assert.ok(close, `${field} is ${String(found)}, wanted ${wanted} within ${tolerance}`)
    }
  })
}

test('a single working answers like the batch does', async () => {
  const index = rows.findIndex(({ working }) => working === 'a0')
  const { code, out, err } = await nilgrowth(['work', 'a0'], JSON.stringify(rows[index]?.input))
  assert.deepEqual({ code, err }, { code: 0, err: '' })
  assert.deepEqual(JSON.parse(out), answers[index]?.output)
})

test('a bad input, bad JSON and an unknown id give exit 2 and one line on stderr', async () => {
  const cases = [
    ['saturation-temperature', '{"pressureKPa": 0}', /^pressureKPa: wanted number >= 0\.6112126, current value is 0/],
    [
      'f-value',
      '{"samples": [], "referenceC": 121, "zK": 10}',
      /^samples: wanted list of >= 2 entries, current value is \[\]/,
    ],
    ['saturation-temperature', '{"pressureKPa": ', /^input: wanted JSON, current value is/],
    ['saturation', '{}', /^working: wanted an id that "nilgrowth work list" shows, current value is "saturation"/],
  ] as const
  const runs = await Promise.all(cases.map(([id, input]) => nilgrowth(['work', id], input)))
  for (const [index, { code, out, err }] of runs.entries()) {
    assert.deepEqual({ code, out }, { code: 2, out: '' })
    assert.match(err, cases[index]?.[2] ?? /never/)
    assert.equal(err.indexOf('\n'), err.length - 1)
  }
})

test('a reader that leaves early is no failure', async () => {
  const child = spawn(process.execPath, [join(root, 'src/cli/main.ts'), 'work', '--batch'], { cwd: root })
  let err = ''
  child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text))
  child.stdin.on('error', () => undefined)
  child.stdout.once('data', () => child.stdout.destroy())
  const line = JSON.stringify({ id: 1, working: 'standard-atmosphere', input: { altitudeM: 0 } })
  child.stdin.end(`${line}\n`.repeat(20_000))
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve))
  assert.deepEqual({ code, err }, { code: 0, err: '' })
})
