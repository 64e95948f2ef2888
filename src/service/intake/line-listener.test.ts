import assert from 'node:assert/strict'
import { spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { connect, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { setTimeout as sleep } from 'node:timers/promises'
import type { Came } from './arrivals.ts'
import { listenToLine } from './line-listener.ts'

const settings = { address: '127.0.0.1', port: 1024, from: null, startMark: null, endMark: 'END', silenceSeconds: 600 }
const machine = 'machine:a'
let folder: string

before(() => {
  folder = mkdtempSync(join(tmpdir(), 'nilgrowth-line-'))
})

after(() => rmSync(folder, { recursive: true, force: true }))

interface Heard {
  readonly came: Came[]
  readonly says: string[]
}

async function listen(name: string, more: object = {}) {
  const heard: Heard = { came: [], says: [] }
  const listener = await listenToLine({
    machine,
    settings: { ...settings, ...more },
    port: 0,
    folder: join(folder, name),
    take: async (came) => heard.came.push(came),
    mostBytes: 5000,
    now: () => Date.now(),
    log: (line) => heard.says.push(line),
    heard: () => {},
  })
  return { ...heard, listener }
}

const dial = (port: number) =>
  new Promise<Socket>((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => resolve(socket))
    socket.on('error', reject)
  })

async function until(what: string, isSo: () => boolean): Promise<void> {
  for (let tries = 0; tries < 300; tries += 1) {
    if (isSo()) return
    await sleep(50)
  }
  throw new Error(`${what} did not come`)
}

const textOf = (came: Came | undefined) => new TextDecoder().decode(came?.bytes)

test('listenToLine: a process that is killed in the middle of a cycle loses no line that was printed', async () => {
  const place = join(folder, 'killed')
  const code = `
    import { listenToLine } from ${JSON.stringify(join(import.meta.dirname, 'line-listener.ts'))}
    const { port } = await listenToLine({ machine: ${JSON.stringify(machine)}, settings: ${JSON.stringify(settings)}, port: 0,
      folder: ${JSON.stringify(place)}, take: async () => {}, mostBytes: 5000, now: () => Date.now(), log: () => {}, heard: () => {} })
    console.log(port)`
  const child = spawn(process.execPath, ['--input-type=module', '-e', code], { stdio: ['ignore', 'pipe', 'inherit'] })
  let port = 0
  child.stdout.on('data', (text: Buffer) => {
    port = Number(text)
  })
  await until('the port', () => port > 0)
  const socket = await dial(port)
  socket.on('error', () => {})
  socket.write('one\r\ntwo\r\nthr')
  const running = join(place, 'running.txt')
  await until('the second line', () => existsSync(running) && readFileSync(running, 'utf8') === 'one\ntwo\n')
  child.kill('SIGKILL')
  await new Promise((resolve) => child.once('exit', resolve))
  const { came, listener } = await listen('killed')
  assert.equal(listener.running()?.lines, 2)
  const again = await dial(listener.port)
  again.write('four\nEND\n')
  await until('the cycle', () => came.length > 0)
  again.destroy()
  await listener.close()
  assert.equal(textOf(came[0]), 'one\ntwo\nfour\nEND\n')
  assert.match(came[0]?.note ?? '', /begun again while it was printed/)
  assert.deepEqual(readdirSync(place), [], 'what is kept elsewhere lies here no more')
})

test('listenToLine: an ended cycle that could not be taken over is taken at the next beginning', async () => {
  const { listener } = await listenFailing('failing')
  const socket = await dial(listener.port)
  socket.write('one\nEND\n')
  await until('the ended cycle', () => readdirSync(join(folder, 'failing')).some((name) => name.startsWith('ended-')))
  socket.destroy()
  await listener.close()
  const after = await listen('failing')
  await after.listener.close()
  assert.deepEqual(after.came.map(textOf), ['one\nEND\n'])
})

function listenFailing(name: string) {
  return listenToLine({
    machine,
    settings,
    port: 0,
    folder: join(folder, name),
    take: () => Promise.reject(new Error('the store is away')),
    mostBytes: 5000,
    now: () => Date.now(),
    log: () => {},
    heard: () => {},
  }).then((listener) => ({ listener }))
}

test('listenToLine: more than is kept of one cycle is cut and said, and nothing of it is lost', async () => {
  const { came, listener } = await listen('long')
  const socket = await dial(listener.port)
  const lines = Array.from({ length: 120 }, (_, index) => `${index} ${'x'.repeat(60)}`)
  for (const line of lines) socket.write(`${line}\n`)
  socket.write('END\n')
  await until('both parts', () => came.some(({ bytes }) => textOf({ ...came[0], bytes } as Came).includes('END')))
  socket.destroy()
  await listener.close()
  assert.equal(came.map(textOf).join(''), `${lines.join('\n')}\nEND\n`)
  assert.match(came[0]?.note ?? '', /More was printed than is kept/)
})

test('listenToLine: an address that may not connect is not heard, and the last of those that may is', async () => {
  const shut = await listen('shut', { from: '127.0.0.2' })
  const refused = await dial(shut.listener.port)
  refused.on('error', () => {})
  await new Promise((resolve) => refused.once('close', resolve))
  assert.match(shut.listener.says(), /1 connections from other addresses were refused/)
  await shut.listener.close()
  const { came, listener } = await listen('last')
  const first = await dial(listener.port)
  first.on('error', () => {})
  const gone = new Promise((resolve) => first.once('close', resolve))
  const second = await dial(listener.port)
  await gone
  second.write('a\nEND\n')
  await until('the cycle', () => came.length === 1)
  second.destroy()
  await listener.close()
  assert.equal(textOf(came[0]), 'a\nEND\n')
})
