import assert from 'node:assert/strict'
import { spawn } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { before, test } from 'node:test'
import { z } from 'zod'
import { findWorking } from '#workings/registry.ts'

/*
 * Published and independently computed values of the statistics workings, asked of the real command line in one batch.
 * Each row names its source.
 */

const root = join(import.meta.dirname, '../..')

/** Rows whose data set is not free to carry here; the working refuses its name. */
const notCarried: readonly string[] = ['firth-02']

type Tolerance = 'exact' | { readonly [field: string]: number | Tolerance }
const Tolerance: z.ZodType<Tolerance> = z.lazy(() =>
  z.union([z.literal('exact'), z.record(z.string(), z.union([z.number(), Tolerance]))]),
)
const Row = z.strictObject({
  id: z.string(),
  working: z.string(),
  input: z.unknown(),
  expected: z.unknown(),
  tolerance: Tolerance,
  source: z.string(),
})
const Answer = z.object({
  id: z.string(),
  output: z.record(z.string(), z.unknown()).optional(),
  error: z.string().optional(),
})

const all = z
  .array(Row)
  .min(151)
  .parse(JSON.parse(await readFile(join(import.meta.dirname, 'checks/statistics.json'), 'utf8')))
const rows = all.filter(({ id }) => !notCarried.includes(id))

let answers: readonly z.infer<typeof Answer>[] = []

before(async () => {
  const child = spawn(process.execPath, [join(root, 'src/cli/main.ts'), 'work', '--batch'], { cwd: root })
  let out = ''
  child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text))
  child.stdin.end(rows.map(({ id, working, input }) => JSON.stringify({ id, working, input })).join('\n'))
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve))
  assert.equal(code, 0)
  const lines = out.split('\n').filter((line) => line !== '')
  answers = lines.map((line) => Answer.parse(JSON.parse(line)))
})

/** The tolerance of one field: its own, that of its kind ('p', 'or' …), or the row's. */
function toleranceOf(tolerance: Tolerance, field: string): { abs: number; rel: number } {
  if (tolerance === 'exact') return { abs: 0, rel: 0 }
  const own = Object.entries(tolerance).find(([name]) => name === field || field.startsWith(`${name}_`))
  if (own !== undefined && typeof own[1] !== 'number') return toleranceOf(own[1], '')
  const { abs, rel } = tolerance
  if (typeof abs === 'number' || typeof rel === 'number') return { abs: Number(abs ?? 0), rel: Number(rel ?? 0) }
  return { abs: 0, rel: 1e-6 }
}

function compare(found: unknown, expected: unknown, tolerance: Tolerance, field: string): void {
  if (typeof expected === 'number') {
    const { abs, rel } = toleranceOf(tolerance, field)
    const room = Math.max(abs, rel * Math.abs(expected))
    const close = typeof found === 'number' && Math.abs(found - expected) <= room
    assert.ok(close, `${field} is ${String(found)}, wanted ${expected} within ${room}`)
  } else if (Array.isArray(expected)) {
    assert.ok(Array.isArray(found) && found.length === expected.length, `${field}: ${JSON.stringify(found)}`)
    for (const [index, each] of expected.entries()) compare(found[index], each, tolerance, field)
  } else if (typeof expected === 'object' && expected !== null) {
    assert.ok(typeof found === 'object' && found !== null, `${field}: ${JSON.stringify(found)}`)
    for (const [name, each] of Object.entries(expected)) compare(Reflect.get(found, name), each, tolerance, name)
  } else assert.deepEqual(found, expected, field)
}

test('the batch answers every row, in order', () => {
  assert.deepEqual(
    answers.map(({ id }) => id),
    rows.map(({ id }) => id),
  )
})

test('a data set that is not carried is refused by name', () => {
  for (const { working, input } of all.filter(({ id }) => notCarried.includes(id))) {
    const result = findWorking(working)?.run(input)
    assert.partialDeepStrictEqual(result, { kind: 'unusable', problems: [{ field: 'dataset' }] })
  }
})

for (const [index, { id, working, expected, tolerance, source }] of rows.entries()) {
  test(`${id} ${working}: ${source}`, () => {
    const answer = answers[index]
    assert.equal(answer?.error, undefined)
    const whole = typeof expected === 'object' && expected !== null && !Array.isArray(expected)
    compare(whole ? answer?.output : answer?.output?.['value'], expected, tolerance, 'value')
  })
}
