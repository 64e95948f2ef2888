import assert from 'node:assert/strict'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { spawnSync } from 'node:child_process'
import { test } from 'node:test'
import { z } from 'zod'
import { Source } from '#units/source.ts'
import { DecidedAnswer } from '#road/deciding/decide.ts'
import { topics } from '#road/deciding/topics.ts'

/*
 * The check cases of the decisions, each by the id of its row: all of them through the real command line, in one batch.
 * A row may also name words that its findings must say.
 */

const Row = z.strictObject({
  id: z.string(),
  topic: z.string(),
  given: z.record(z.string(), z.json()),
  decision: z.string(),
  finds: z.array(z.string()).optional(),
  source: z.string(),
  status: Source.shape.status,
})

const folder = join(import.meta.dirname, 'decisions')
const rows = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .sort()
  .flatMap((name) => z.array(Row).parse(JSON.parse(readFileSync(join(folder, name), 'utf8'))))

const program = join(import.meta.dirname, '../../src/cli/main.ts')
const ran = spawnSync(process.execPath, [program, 'decide', '--batch'], {
  input: rows.map(({ id, topic, given }) => `${JSON.stringify({ id, topic, given })}\n`).join(''),
  encoding: 'utf8',
  maxBuffer: 64 * 1024 * 1024,
})
const lines = ran.stdout.trimEnd().split('\n')

for (const [index, row] of rows.entries()) {
  test(`${row.id} ${row.topic}: ${row.decision} (${row.source}, ${row.status})`, () => {
    const line: unknown = JSON.parse(lines[index] ?? '{}')
    const answer = DecidedAnswer.extend({ id: z.string() }).safeParse(line)
    assert.ok(answer.success, lines[index])
    assert.equal(answer.data.id, row.id)
    assert.equal(answer.data.decision, row.decision, lines[index])
    assert.ok(answer.data.sources.length > 0)
    const says = answer.data.findings
      .map((each) => [each.rule, each.says, each.measured, each.limit].join(' '))
      .join('\n')
    for (const words of row.finds ?? []) assert.ok(says.includes(words), `${words} in:\n${says}`)
  })
}

test('the batch ends well', () => assert.deepEqual({ status: ran.status, err: ran.stderr }, { status: 0, err: '' }))

test('each topic has its own name, and its example comes to what it says', () => {
  assert.equal(new Set(topics.map(({ topic }) => topic)).size, topics.length)
  for (const topic of topics) {
    const result = topic.run(topic.example.given)
    assert.ok(result.kind === 'decided', `${topic.topic}: ${JSON.stringify(result)}`)
    assert.equal(result.decision, topic.example.decision, topic.topic)
    for (const row of rows.filter((each) => each.topic === topic.topic)) {
      assert.ok(row.decision in topic.decisions, `${row.id}: ${row.decision} is one of the decisions of ${topic.topic}`)
    }
  }
})
