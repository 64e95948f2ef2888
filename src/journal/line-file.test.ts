import assert from 'node:assert/strict'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { test } from 'node:test'
import { ExportLine } from './export-format.ts'
import { readLines } from './line-file.ts'

async function linesOfText(text: string): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-lines-'))
  try {
    const file = join(folder, 'lines')
    writeFileSync(file, text)
    const lines: string[] = []
    for await (const line of readLines(file)) lines.push(line)
    return lines
  } finally {
    rmSync(folder, { recursive: true })
  }
}

test('readLines gives every line, also those that lie over several pieces of the file', async () => {
  const long = 'x'.repeat(200_000)
  assert.deepEqual(await linesOfText(`a\n\n${long}\nb\u2028c\n${long}`), ['a', '', long, 'b\u2028c', long])
  assert.deepEqual(await linesOfText(''), [])
})

test('readLines takes a time in proportion to the file for one endless line', async () => {
  const before = performance.now()
  const [line] = await linesOfText('a'.repeat(40_000_000))
  assert.equal(line?.length, 40_000_000)
  // Looking through the whole line again for each piece of it took more than ten seconds.
  assert.ok(performance.now() - before < 5000)
})

test('the media type of an imported file is one that a header can carry', () => {
  const line = { attachment: 'ab'.repeat(32), mediaType: 'text/csv; charset=utf-8', base64: 'QQ==' }
  assert.equal(ExportLine.safeParse(line).success, true)
  for (const mediaType of ['', 'text/html\r\nX: y', 'a\u0000b', 'text/ü', 'x'.repeat(201)]) {
    assert.equal(ExportLine.safeParse({ ...line, mediaType }).success, false, mediaType)
  }
})
