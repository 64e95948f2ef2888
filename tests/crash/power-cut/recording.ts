import assert from 'node:assert/strict'
import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'

/** What a program asked of its disk, in order. `told` is what it wrote to its standard output. */
export type DiskEvent =
  | { readonly kind: 'made' | 'synced' | 'removed'; readonly path: string }
  | { readonly kind: 'written'; readonly path: string; readonly offset: number; readonly data: Buffer }
  | { readonly kind: 'cut'; readonly path: string; readonly length: number }
  | { readonly kind: 'told'; readonly text: string }

/** A C compiler, or undefined: the recorder sits below Node, where no JavaScript reaches. */
export function compiler(): string | undefined {
  return ['/usr/bin/cc', '/usr/bin/gcc', '/usr/bin/clang'].find((file) => existsSync(file))
}

/** Runs a program until its record of the disk is so long, then kills it; gives the record. */
export async function recordDisk(
  folder: string,
  program: readonly string[],
  { bytes, seconds }: { readonly bytes: number; readonly seconds: number },
): Promise<DiskEvent[]> {
  const cc = compiler()
  assert.ok(cc !== undefined)
  mkdirSync(folder, { recursive: true })
  const library = join(folder, 'record-writes.so')
  execFileSync(cc, ['-shared', '-fPIC', '-O2', '-o', library, join(import.meta.dirname, 'record-writes.c'), '-ldl'])
  const watched = join(folder, 'data')
  mkdirSync(watched)
  const log = join(folder, 'disk.log')
  const child = spawn(process.execPath, program, {
    env: { ...process.env, LD_PRELOAD: library, POWER_CUT_FOLDER: watched, POWER_CUT_LOG: log },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let complaint = ''
  child.stdout.resume()
  child.stderr.on('data', (chunk: Buffer) => (complaint += chunk.toString()))
  const ended = once(child, 'close')
  const until = performance.now() + seconds * 1000
  while (child.exitCode === null && performance.now() < until && lengthOf(log) < bytes) await wait(20)
  assert.equal(child.exitCode, null, `the program ended by itself: ${complaint}`)
  child.kill('SIGKILL')
  await ended
  const events = eventsOf(readFileSync(log))
  rmSync(log)
  return events
}

function lengthOf(file: string): number {
  return existsSync(file) ? statSync(file).size : 0
}

const kinds = ['made', 'written', 'cut', 'synced', 'removed', 'told'] as const

/** Reads the record; what the kill cut off at its end was not done. */
function eventsOf(log: Buffer): DiskEvent[] {
  const events: DiskEvent[] = []
  let at = 0
  while (at + 20 <= log.length) {
    const kind = kinds[log.readUInt32LE(at) - 1]
    const [pathBytes, dataBytes] = [log.readUInt32LE(at + 4), log.readUInt32LE(at + 8)]
    const offset = Number(log.readBigUInt64LE(at + 12))
    const end = at + 20 + pathBytes + dataBytes
    if (end > log.length) break
    assert.ok(kind !== undefined, 'the record of the disk reads')
    const path = log.toString('utf8', at + 20, at + 20 + pathBytes)
    const data = log.subarray(at + 20 + pathBytes, end)
    if (kind === 'written') events.push({ kind, path, offset, data })
    else if (kind === 'cut') events.push({ kind, path, length: offset })
    else if (kind === 'told') events.push({ kind, text: data.toString('utf8') })
    else events.push({ kind, path })
    at = end
  }
  return events
}
