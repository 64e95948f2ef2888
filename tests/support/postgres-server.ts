import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { chownSync, existsSync, globSync, mkdtempSync, rmSync, statfsSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { Client } from 'pg'

/** A PostgreSQL of its own for a test, on a socket in a temporary folder. */
export interface PostgresServer extends AsyncDisposable {
  readonly url: string
  /** Kills the server in the middle of its work and starts it again on the same files. */
  crashAndRestart(): Promise<void>
}

/**
 * Starts a temporary PostgreSQL, or uses the one that TEST_DATABASE_URL names. When there is none this throws and
 * says how to get it: a contract that was not tried is not kept. `fast` leaves syncing out, for tests that crash nothing.
 */
export async function startPostgres(disk: 'synced' | 'fast'): Promise<PostgresServer> {
  const given = process.env['TEST_DATABASE_URL']
  if (given !== undefined && given !== '') return givenServer(given)
  const bin = findBinaries()
  const owner = serverOwner()
  const folder = mkdtempSync(join(disk === 'fast' ? memory() : tmpdir(), 'nilgrowth-pg-'))
  if (owner !== undefined) chownSync(folder, owner.uid, owner.gid)
  const data = join(folder, 'data')
  execFileSync(join(bin, 'initdb'), ['-D', data, '-U', 'postgres', '-A', 'trust', '-E', 'UTF8', '--no-sync'], {
    ...owner,
    cwd: folder,
    stdio: 'pipe',
  })
  const url = `postgres://postgres@localhost/postgres?host=${encodeURIComponent(folder)}`
  const start = () => startServer({ bin, data, folder, owner, url, sync: disk === 'synced' ? 'on' : 'off' })
  let server = await start()
  // A test that throws must not leave a server behind.
  const killed = () => server.kill('SIGQUIT')
  process.on('exit', killed)
  return {
    url,
    async crashAndRestart() {
      await endServer(server, 'SIGKILL')
      server = await startAgain(start)
    },
    async [Symbol.asyncDispose]() {
      process.off('exit', killed)
      await endServer(server, 'SIGINT')
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

const roomWanted = 2 ** 30

/** A folder in memory where the system has one with room: the tests make and remove tens of thousands of small files. */
function memory(): string {
  const folder = '/dev/shm'
  if (!existsSync(folder)) return tmpdir()
  const { bavail, bsize } = statfsSync(folder)
  return bavail * bsize > roomWanted ? folder : tmpdir()
}

function givenServer(url: string): PostgresServer {
  return {
    url,
    crashAndRestart() {
      throw new TypeError('Cannot crash the server of TEST_DATABASE_URL: unset it, so that the test starts its own')
    },
    async [Symbol.asyncDispose]() {},
  }
}

export function findBinaries(): string {
  const folders = [...globSync('/usr/lib/postgresql/*/bin').sort().toReversed(), '/usr/local/bin', '/opt/homebrew/bin']
  const found = folders.find((folder) => existsSync(join(folder, 'initdb')) && existsSync(join(folder, 'postgres')))
  if (found !== undefined) return found
  throw new Error(
    'PostgreSQL is not installed, and this test runs on a real one: install it (Debian: apt-get install postgresql) ' +
      'or set TEST_DATABASE_URL to a database that may be filled',
  )
}

/** PostgreSQL refuses to run as root: there it runs as the user that its package makes. */
export function serverOwner(): { uid: number; gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined
  const id = (flag: '-u' | '-g') => Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }))
  return { uid: id('-u'), gid: id('-g') }
}

async function startServer(of: {
  bin: string
  data: string
  folder: string
  owner: { uid: number; gid: number } | undefined
  url: string
  sync: 'on' | 'off'
}): Promise<ChildProcess> {
  const server = spawn(
    join(of.bin, 'postgres'),
    [
      '-D',
      of.data,
      '-k',
      of.folder,
      '-c',
      'listen_addresses=',
      '-c',
      `fsync=${of.sync}`,
      '-c',
      `synchronous_commit=${of.sync}`,
    ],
    { ...of.owner, cwd: of.folder, stdio: ['ignore', 'ignore', 'pipe'] },
  )
  let log = ''
  server.stderr?.on('data', (chunk: Buffer) => {
    log = (log + chunk.toString()).slice(-4000)
  })
  for (let tries = 0; tries < 300; tries += 1) {
    if (server.exitCode !== null) break
    if (await answers(of.url)) return server
    await wait(50)
  }
  server.kill('SIGQUIT')
  throw new Error(`The temporary PostgreSQL did not start: ${log}`)
}

/** The processes of a killed server end a moment later; until then PostgreSQL rightly refuses to start. */
async function startAgain(start: () => Promise<ChildProcess>): Promise<ChildProcess> {
  for (let tries = 0; tries < 20; tries += 1) {
    try {
      return await start()
    } catch {
      await wait(200)
    }
  }
  return await start()
}

async function answers(url: string): Promise<boolean> {
  const client = new Client({ connectionString: url })
  // The server may end the connection while it is starting up.
  client.on('error', () => {})
  try {
    await client.connect()
    await client.query('SELECT 1')
    return true
  } catch {
    return false
  } finally {
    await client.end().catch(() => {})
  }
}

async function endServer(server: ChildProcess, signal: 'SIGINT' | 'SIGKILL'): Promise<void> {
  if (server.exitCode !== null || server.signalCode !== null) return
  const ended = once(server, 'exit')
  server.kill(signal)
  await ended
}
