import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { serviceLog } from '../operation/log.ts'
import { standbyWatch } from './standby-watch.ts'

test('given a standby that is expected and not there, then that is logged once, as an error', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-standby-'))
  const now = () => instant(Date.now())
  const lines: string[] = []
  try {
    // A record in one file has no standby.
    const at = { kind: 'sqlite', file: join(folder, 'unit.sqlite') } as const
    await using journal = await openJournal({ at, road: theRoad, now })
    const log = serviceLog({ form: 'json', now, write: (line) => lines.push(line) })
    const watch = standbyWatch({ journal, expected: true, log: log.say })
    await watch.look()
    await watch.look()
    watch.close()
  } finally {
    rmSync(folder, { recursive: true })
  }
  const told = lines.map((line): { level?: string; says?: string } => JSON.parse(line))
  assert.ok(told.length > 0)
  for (const { level, says } of told) {
    assert.equal(level, 'error')
    assert.match(says ?? '', /^NO STANDBY: /)
  }
})
