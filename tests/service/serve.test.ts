import assert from 'node:assert/strict'
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'

const main = join(import.meta.dirname, '../../src/cli/main.ts')

function serve(environment: Readonly<Record<string, string>>): ChildProcess {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-serve-'))
  return spawn(process.execPath, [main, 'serve'], {
    env: { NILGROWTH_DATA: join(folder, 'unit.sqlite'), ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
}

async function textOf(stream: ChildProcess['stdout']): Promise<string> {
  let text = ''
  for await (const chunk of stream ?? []) text += String(chunk)
  return text
}

for (const signal of ['SIGTERM', 'SIGINT'] as const) {
  test(`serve: says where it is open, and ${signal} closes it in good order with a stream still open`, async () => {
    const service = serve({ PORT: '0', NILGROWTH_SIGN_IN: 'open' })
    const [first] = (await once(service.stdout ?? service, 'data')) as [Buffer]
    const url = /^nilgrowth is open at (http:\/\/localhost:\d+)\n$/.exec(String(first))?.[1]
    assert.ok(url, String(first))
    const stream = await fetch(`${url}/api/live`)
    assert.equal(stream.status, 200)
    service.kill(signal)
    const [code] = (await once(service, 'exit')) as [number]
    assert.equal(code, 0)
    await stream.text().catch(() => '')
  })
}

test('serve: a port in use is one clear line with a way out', async () => {
  const taken = createServer().listen(0, '127.0.0.1')
  await once(taken, 'listening')
  const address = taken.address()
  const port = typeof address === 'object' && address !== null ? address.port : 0
  const service = serve({ PORT: String(port) })
  const [says, [code]] = await Promise.all([textOf(service.stderr), once(service, 'exit') as Promise<[number]>])
  taken.close()
  assert.equal(code, 1)
  assert.equal(says, `Port ${port} is in use by another program: choose another with PORT=${port + 1} npm start\n`)
})

test('serve: bad settings are one clear line', async () => {
  const service = serve({ PORT: 'abc' })
  const [says, [code]] = await Promise.all([textOf(service.stderr), once(service, 'exit') as Promise<[number]>])
  assert.equal(code, 2)
  assert.equal(says, 'PORT: wanted a whole number from 0 to 65535, current value is "abc"\n')
})

test('serve and verify: a store of a newer version is one clear line, and is left as it is', async () => {
  const file = join(mkdtempSync(join(tmpdir(), 'nilgrowth-newer-')), 'unit.sqlite')
  await (await openJournal({ at: { kind: 'sqlite', file }, road: theRoad, now: () => instant(0) })).close()
  const database = new DatabaseSync(file)
  database.exec("UPDATE meta SET value = '99' WHERE name = 'format'")
  const line =
    /^(verify: )?The store has tables of format 99, from a newer version of nilgrowth; [^\n]*Nothing was changed[^\n]*\n$/
  const commands: readonly (readonly string[])[] = [['serve'], ['verify'], ['known', 'person'], ['export']]
  for (const command of commands) {
    const run = spawn(process.execPath, [main, ...command], { env: { NILGROWTH_DATA: file, PORT: '0' }, stdio: 'pipe' })
    const [says, [code]] = await Promise.all([textOf(run.stderr), once(run, 'exit') as Promise<[number]>])
    assert.match(says.replace(/^(known|export): /, ''), line, command.join(' '))
    assert.equal(code, 1)
  }
  assert.equal(database.prepare("SELECT value FROM meta WHERE name = 'format'").get()?.['value'], '99')
  database.close()
})
