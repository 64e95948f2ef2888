import assert from 'node:assert/strict'
import { appendFileSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { watchedFolder } from './watched-folder.ts'

let folder: string

before(() => {
  folder = mkdtempSync(join(tmpdir(), 'nilgrowth-watched-'))
})

after(() => rmSync(folder, { recursive: true, force: true }))

test('watchedFolder: a log that gets a row every 40 seconds is not taken before the machine is done with it', async () => {
  let now = 0
  const watched = watchedFolder({ now: () => now, quietFor: 60_000 })
  const file = join(folder, 'cycle.csv')
  const offered: number[] = []
  writeFileSync(file, 's,T\n')
  for (let second = 0; second <= 600; second += 10) {
    now = second * 1000
    if (second % 40 === 0 && second <= 400) appendFileSync(file, `${second},134\n`)
    // In the order of the clock.
    // oxlint-disable-next-line no-await-in-loop
    const { whole } = await watched.look(folder)
    for (const each of whole) {
      offered.push(second)
      watched.taken(each)
    }
  }
  assert.deepEqual(offered, [460])
})

test('watchedFolder: a file that was renamed into place is taken once, and anew when it was written anew', async () => {
  let now = 0
  const watched = watchedFolder({ now: () => now, quietFor: 10 })
  const names = async () => {
    const { whole } = await watched.look(folder)
    for (const each of whole) watched.taken(each)
    return whole.map(({ name }) => name)
  }
  rmSync(join(folder, 'cycle.csv'), { force: true })
  writeFileSync(join(folder, 'a.csv.tmp'), 'one\n')
  assert.deepEqual(await names(), [])
  now = 20
  assert.deepEqual(await names(), [], 'a name under which programs write')
  renameSync(join(folder, 'a.csv.tmp'), join(folder, 'a.csv'))
  assert.deepEqual(await names(), [])
  now = 30
  assert.deepEqual(await names(), ['a.csv'])
  assert.deepEqual(await names(), [])
  writeFileSync(join(folder, 'a.csv'), 'one\ntwo\n')
  assert.deepEqual(await names(), [])
  now = 40
  assert.deepEqual(await names(), ['a.csv'])
})
