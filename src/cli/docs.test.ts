import assert from 'node:assert/strict'
import { appendFile, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { workings } from '#workings/registry.ts'
import { captured } from './captured.suite.ts'
import { commands } from './commands.ts'
import { commandsPage } from './docs-commands.ts'
import { fieldTables } from './docs-fields.ts'
import { workingPages } from './docs-workings.ts'
import type { JsonSchema } from './docs-fields.ts'
import { checkPages, runDocs, writePages } from './docs.ts'

const root = await mkdtemp(join(tmpdir(), 'nilgrowth-docs-'))
after(() => rm(root, { recursive: true }))

async function check() {
  const streams = captured()
  return { code: await checkPages(root, streams.io), err: streams.err() }
}

test('docs --check names every page that differs, is missing or is too many', async () => {
  const stale = join(root, 'workings/a0.md')
  const extra = join(root, 'workings/old.md')
  assert.equal((await check()).code, 1, 'no page has been written yet')
  await writePages(root, captured().io)
  assert.deepEqual(await check(), { code: 0, err: '' })
  await appendFile(stale, 'edited by hand\n')
  await writeFile(extra, 'left over\n')
  assert.deepEqual(await check(), {
    code: 1,
    err:
      'docs/reference/workings/a0.md is not current: run "nilgrowth docs"\n' +
      'docs/reference/workings/old.md is not current: run "nilgrowth docs"\n',
  })
  await writePages(root, captured().io)
  assert.deepEqual(await check(), { code: 0, err: '' })
  assert.equal(await readFile(stale, 'utf8'), workingPages().get('a0.md'))
})

test('the committed reference pages are current', async () => {
  const streams = captured()
  assert.equal(await runDocs(['--check'], streams.io), 0, streams.err())
})

test('every working has a page with its sources, fields and example', () => {
  const pages = workingPages()
  assert.equal(pages.size, workings.length + 1)
  const page = pages.get('flush-time.md') ?? ''
  assert.match(page, /Three lumen volumes as a default \(a proposal; your unit decides\)/)
  assert.match(page, /\| `lumenVolumes` \| number, 1 to 1000, optional \| .* \(default 3\) \|/)
  assert.match(page, /"seconds": 19\.44/)
})

test('fieldTables reaches into lists, and gives each form its own table', () => {
  const row: JsonSchema = { type: 'object', properties: { b: { type: 'number', minimum: 0 } }, required: ['b'] }
  assert.equal(
    fieldTables({ type: 'object', properties: { a: { type: 'array', items: row } } }),
    '| field | type | meaning |\n|---|---|---|\n| `a` | list of object, optional |  |\n| `a[].b` | number, at least 0 |  |',
  )
  assert.equal(fieldTables({ oneOf: [row, row] }).split('| field |').length, 3)
})

test('every command of the table has a line on its page', () => {
  const page = commandsPage(commands)
  for (const { name, summary } of commands) assert.ok(page.includes(`| \`nilgrowth ${name}\` | ${summary} |`), name)
  assert.match(commandsPage([{ name: 'a', summary: 'b | c' }]), /\| b \\\| c \|/)
})

test('docs refuses arguments it does not know', async () => {
  const streams = captured()
  assert.equal(await runDocs(['--chekc'], streams.io), 2)
  assert.equal(streams.err(), 'arguments: wanted docs [--check], current value is "--chekc"\n')
})
