import assert from 'node:assert/strict'
import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { test } from 'node:test'
import { pathToFileURL } from 'node:url'

/*
 * Several programs may find at once that the packages are missing, and two `npm ci` in one tree break it. A tree of its
 * own in a temporary folder is installed here by several processes at once.
 */

const node24 = pathToFileURL(join(import.meta.dirname, '../../tools/node24.mjs')).href

/** Does to the tree what `npm ci` does, writes down when, and fails when another does so too. */
const tellingNpm = `#!${process.execPath}
const { appendFileSync, existsSync, mkdirSync, rmSync, rmdirSync } = require('node:fs')
appendFileSync('log', 'begin\\n')
mkdirSync('busy')
rmSync('node_modules', { recursive: true, force: true })
setTimeout(() => {
  rmdirSync('busy')
  const fails = existsSync('fails')
  if (fails) rmSync('fails')
  else mkdirSync('node_modules')
  appendFileSync('log', 'end\\n')
  process.exitCode = fails ? 1 : 0
}, 500)
`

interface Tree extends Disposable {
  readonly folder: string
  readonly lock: string
  /** Installs in so many processes at once; gives their exit codes, sorted. */
  readonly install: (processes: number) => Promise<readonly number[]>
  /** What the telling npm wrote down. */
  readonly log: () => readonly string[]
}

function newTree(npm: 'telling' | 'real'): Tree {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-install-'))
  const bin = join(folder, 'bin')
  mkdirSync(bin)
  if (npm === 'telling') writeFileSync(join(bin, 'npm'), tellingNpm, { mode: 0o755 })
  mkdirSync(join(folder, 'piece'))
  const piece = { name: 'piece', version: '1.0.0' }
  const whole = { name: 'whole', version: '1.0.0', dependencies: { piece: 'file:piece' } }
  writeFileSync(join(folder, 'piece', 'package.json'), JSON.stringify(piece))
  writeFileSync(join(folder, 'package.json'), JSON.stringify(whole))
  const packages = { '': whole, 'node_modules/piece': { resolved: 'piece', link: true }, piece: { version: '1.0.0' } }
  writeFileSync(join(folder, 'package-lock.json'), JSON.stringify({ ...whole, lockfileVersion: 3, packages }))
  return {
    folder,
    lock: join(folder, '.nilgrowth-installing'),
    install: async (processes) =>
      (await Promise.all(Array.from({ length: processes }, () => installOnce(folder, bin)))).toSorted((a, b) => a - b),
    log: () => readFileSync(join(folder, 'log'), 'utf8').trim().split('\n'),
    [Symbol.dispose]: () => rmSync(folder, { recursive: true, force: true }),
  }
}

async function installOnce(folder: string, bin: string): Promise<number> {
  const program = `import { ensurePackages } from ${JSON.stringify(node24)}; ensurePackages(${JSON.stringify(folder)})`
  const child = spawn(process.execPath, ['--input-type=module', '-e', program], {
    stdio: 'ignore',
    env: { ...process.env, PATH: `${bin}${delimiter}${process.env['PATH'] ?? ''}` },
  })
  const [code] = (await once(child, 'exit')) as [number]
  return code
}

/** The number of a process that has ended. */
function goneProcess(): number {
  return spawnSync(process.execPath, ['-e', '']).pid
}

test('two at once: one installs, the other waits and finds it done', async () => {
  using tree = newTree('telling')
  assert.deepEqual(await tree.install(2), [0, 0])
  assert.deepEqual(tree.log(), ['begin', 'end'])
  assert.ok(!existsSync(tree.lock))
})

test('two at once with the real npm: the packages are whole', async () => {
  using tree = newTree('real')
  assert.deepEqual(await tree.install(2), [0, 0])
  assert.ok(existsSync(join(tree.folder, 'node_modules', 'piece', 'package.json')))
  assert.ok(existsSync(join(tree.folder, 'node_modules', '.nilgrowth-lock')))
  assert.ok(!existsSync(tree.lock))
})

test('the first fails: the other has its turn, and does it', async () => {
  using tree = newTree('telling')
  writeFileSync(join(tree.folder, 'fails'), '')
  assert.deepEqual(await tree.install(2), [0, 1])
  assert.deepEqual(tree.log(), ['begin', 'end', 'begin', 'end'])
})

test('a lock whose process is gone is taken over, by one of several', async () => {
  using tree = newTree('telling')
  mkdirSync(tree.lock)
  writeFileSync(join(tree.lock, 'owner'), `${goneProcess()} ${new Date().toISOString()}\n`)
  assert.deepEqual(await tree.install(3), [0, 0, 0])
  assert.deepEqual(tree.log(), ['begin', 'end'])
  assert.ok(!existsSync(tree.lock))
})

test('a lock from before the machine was started is taken over, though a process has its number again', async () => {
  using tree = newTree('telling')
  mkdirSync(tree.lock)
  writeFileSync(join(tree.lock, 'owner'), `${process.pid} 2001-01-01T00:00:00.000Z\n`)
  assert.deepEqual(await tree.install(1), [0])
})

test('a lock whose process is there is waited for', async () => {
  using tree = newTree('telling')
  mkdirSync(tree.lock)
  writeFileSync(join(tree.lock, 'owner'), `${process.pid} ${new Date().toISOString()}\n`)
  const installing = tree.install(1)
  await new Promise((resolve) => setTimeout(resolve, 1000))
  assert.ok(!existsSync(join(tree.folder, 'log')))
  rmSync(tree.lock, { recursive: true })
  assert.deepEqual(await installing, [0])
  assert.deepEqual(tree.log(), ['begin', 'end'])
})

test('packages that are there by a link are another tree’s: they are not installed anew, nor taken away', async () => {
  using tree = newTree('telling')
  using other = newTree('telling')
  mkdirSync(join(other.folder, 'node_modules', 'piece'), { recursive: true })
  symlinkSync(join(other.folder, 'node_modules'), join(tree.folder, 'node_modules'))
  assert.deepEqual(await tree.install(1), [0])
  assert.ok(!existsSync(join(tree.folder, 'log')))
  assert.ok(existsSync(join(other.folder, 'node_modules', 'piece')))
})
