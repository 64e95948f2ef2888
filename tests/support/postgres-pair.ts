import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { appendFileSync, chownSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { Client } from 'pg'
import { findBinaries, serverOwner } from './postgres-server.ts'

/** Two PostgreSQL servers, of which the second follows the first. */
export interface PostgresPair extends AsyncDisposable {
  /** One address that names both. */
  readonly url: string
  readonly first: string
  readonly second: string
  /** Stops the first sending to the second, for good: what a network does that breaks before the machine does. */
  cutOff(): Promise<void>
  /** Kills every process of the first server at once, as the loss of its machine would. */
  killFirst(): Promise<void>
  /** Starts the first server again on its files, as one who does not know that it was replaced. */
  startFirst(): Promise<void>
  /** Makes the second take writes. */
  promote(): Promise<void>
}

/** `confirming`: the first acknowledges only what the second has. `trailing`: it does not wait, as the control. */
export async function startPair(standby: 'confirming' | 'trailing'): Promise<PostgresPair> {
  const bin = findBinaries()
  const owner = serverOwner()
  const base = mkdtempSync(join(tmpdir(), 'nilgrowth-pair-'))
  if (owner !== undefined) chownSync(base, owner.uid, owner.gid)
  const folder = (name: string): string => {
    const path = join(base, name)
    mkdirSync(path)
    if (owner !== undefined) chownSync(path, owner.uid, owner.gid)
    return path
  }
  const [one, two] = [folder('one'), folder('two')]
  const run = (program: string, args: readonly string[]) =>
    execFileSync(join(bin, program), args, { ...owner, cwd: base, stdio: 'pipe' })
  run('initdb', ['-D', join(one, 'data'), '-U', 'postgres', '-A', 'trust', '-E', 'UTF8', '--no-sync'])
  // What is killed are processes, so that the page cache stays: syncing would only make the test slower.
  appendFileSync(join(one, 'data/postgresql.conf'), "fsync = off\nlisten_addresses = ''\nwal_keep_size = 64MB\n")
  const servers = new Map<string, ChildProcess>()
  const start = async (at: string) => {
    const server = spawn(join(bin, 'postgres'), ['-D', join(at, 'data'), '-k', at], {
      ...owner,
      cwd: at,
      stdio: 'ignore',
    })
    servers.set(at, server)
    await untilAnswers(urlOf(at))
  }
  const killAll = () => {
    for (const server of servers.values()) server.kill('SIGQUIT')
  }
  process.on('exit', killAll)

  await start(one)
  const follow = `host=${one} user=postgres application_name=second`
  run('pg_basebackup', ['-d', follow, '-D', join(two, 'data'), '-R', '-C', '-S', 'second', '-c', 'fast', '--no-sync'])
  if (standby === 'confirming') {
    await ask(urlOf(one), "ALTER SYSTEM SET synchronous_standby_names = 'second'")
    await ask(urlOf(one), 'SELECT pg_reload_conf()')
  }
  await start(two)
  await until('the standby', async () => {
    const wanted = standby === 'confirming' ? 'sync' : 'async'
    const [row] = await ask(urlOf(one), 'SELECT sync_state, state FROM pg_stat_replication')
    return row?.['sync_state'] === wanted && row['state'] === 'streaming'
  })

  return {
    url: `postgres://postgres@${encodeURIComponent(one)},${encodeURIComponent(two)}/postgres`,
    first: urlOf(one),
    second: urlOf(two),
    async cutOff() {
      // The sender and not the receiver, which would still find in its socket what had been sent.
      const [row] = await ask(urlOf(one), 'SELECT pid FROM pg_stat_replication')
      process.kill(Number(row?.['pid']), 'SIGSTOP')
    },
    async killFirst() {
      const server = servers.get(one)
      if (server?.pid === undefined) throw new TypeError('The first server does not run')
      const ended = once(server, 'exit')
      const children = childrenOf(server.pid)
      for (const pid of [server.pid, ...children]) killed(pid)
      await ended
    },
    startFirst: () => start(one),
    async promote() {
      await ask(urlOf(two), 'SELECT pg_promote()')
    },
    async [Symbol.asyncDispose]() {
      process.off('exit', killAll)
      for (const server of servers.values()) {
        if (server.exitCode !== null || server.signalCode !== null) continue
        const ended = once(server, 'exit')
        server.kill('SIGQUIT')
        await ended
      }
      rmSync(base, { recursive: true, force: true })
    },
  }
}

function urlOf(folder: string): string {
  return `postgres://postgres@${encodeURIComponent(folder)}/postgres`
}

function childrenOf(pid: number): number[] {
  const text = execFileSync('ps', ['-o', 'pid=', '--ppid', String(pid)], { encoding: 'utf8' })
  return text.split('\n').map(Number).filter(Boolean)
}

function killed(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL')
  } catch {
    // It has ended by itself, as a server's processes do when their parent is gone.
  }
}

async function ask(url: string, text: string): Promise<readonly Record<string, unknown>[]> {
  const client = new Client({ connectionString: url })
  client.on('error', () => {})
  try {
    await client.connect()
    return (await client.query<Record<string, unknown>>(text)).rows
  } finally {
    await client.end().catch(() => {})
  }
}

async function untilAnswers(url: string): Promise<void> {
  await until(`a server at ${url}`, async () => {
    try {
      await ask(url, 'SELECT 1')
      return true
    } catch {
      return false
    }
  })
}

async function until(what: string, holds: () => Promise<boolean>): Promise<void> {
  for (let tries = 0; tries < 600; tries += 1) {
    if (await holds()) return
    await wait(50)
  }
  throw new Error(`Waited in vain for ${what}`)
}
