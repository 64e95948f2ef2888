import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { v7 } from 'uuid'
import { startPostgres } from '../tests/support/postgres-server.ts'
import { grasper } from './grasper.ts'
import { type BenchRow, percentile } from './measure.ts'

/*
 * 200 tablets of mixed work against one service of its own process, over the loopback, each with its live stream open. A
 * tablet does one thing every five seconds on average: four in ten record a step, the others read. BENCH_MINUTES=15 for
 * the long one; BENCH_TABLETS for another number, BENCH_ENGINES=sqlite for one engine.
 */

const tablets = Number(process.env['BENCH_TABLETS'] ?? '200')
const minutes = Number(process.env['BENCH_MINUTES'] ?? '1')
const engines = (process.env['BENCH_ENGINES'] ?? 'sqlite,postgres').split(',')
const thinkMilliseconds = 5000
const rounds = 400

export async function tabletsBench(): Promise<readonly BenchRow[]> {
  const rows = engines.includes('sqlite') ? await against('SQLite', {}) : []
  if (!engines.includes('postgres')) return rows
  await using server = await startPostgres('synced')
  return [...rows, ...(await against('PostgreSQL', { DATABASE_URL: server.url }))]
}

async function against(engine: string, environment: Record<string, string>): Promise<readonly BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-tablets-'))
  const service = await startService(folder, environment)
  try {
    await fill(service.url)
    return await measure(engine, service)
  } finally {
    const ended = once(service.process, 'exit')
    service.process.kill('SIGTERM')
    await ended
    rmSync(folder, { recursive: true, force: true })
  }
}

interface Service {
  readonly url: string
  readonly process: ChildProcess
}

async function startService(folder: string, environment: Record<string, string>): Promise<Service> {
  const main = fileURLToPath(new URL('../src/cli/main.ts', import.meta.url))
  const child = spawn(process.execPath, [main, 'serve'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'inherit'],
    env: {
      ...process.env,
      PORT: '0',
      NILGROWTH_DATA: join(folder, 'unit.sqlite'),
      NILGROWTH_SIGN_IN: 'open',
      NILGROWTH_RATE_ADDRESS: '1000000',
      NILGROWTH_RATE_SESSION: '1000000',
      NILGROWTH_STREAMS_LIMIT: String(tablets + 10),
      ...environment,
    },
  })
  let said = ''
  for await (const chunk of child.stdout) {
    said += String(chunk)
    const url = /open at (\S+)/.exec(said)?.[1]
    if (url !== undefined) return { url, process: child }
  }
  throw new Error(`The service did not open: ${said}`)
}

async function fill(url: string): Promise<void> {
  await send(url, 'POST', '/api/unit', { choice: 'empty', name: 'Bench', timeZone: 'UTC', manager: 'Ada' })
  const entries = [entryOf('device-registered', grasper)]
  const countSheet = [{ device: 'device:grasper', count: 2 }]
  for (let n = 0; n < rounds; n += 1) {
    entries.push(
      entryOf('set-registered', { set: `set:s${n}`, name: `Set ${n}`, countSheet }),
      entryOf('reprocessing-started', { round: `round:r${n}`, set: `set:s${n}`, because: 'newSet' }),
    )
  }
  for (let from = 0; from < entries.length; from += 100)
    await send(url, 'POST', '/api/entries', entries.slice(from, from + 100))
}

async function record(url: string, kind: string, body: unknown): Promise<void> {
  await send(url, 'POST', '/api/entries', entryOf(kind, body))
}

function entryOf(kind: string, body: unknown) {
  const happenedAt = new Date().toISOString()
  return { id: v7(), site: 'unit', kind, happenedAt, by: 'person:ada', workstation: 'Tablet', body }
}

async function send(url: string, method: string, path: string, body?: unknown): Promise<void> {
  const response = await fetch(`${url}${path}`, {
    method,
    ...(body === undefined ? {} : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
  })
  const text = await response.text()
  if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${text.slice(0, 300)}`)
}

type Act = 'record a step' | 'read a list' | 'read a round' | 'trace a round'

const acts: readonly (readonly [share: number, act: Act])[] = [
  [0.4, 'record a step'],
  [0.7, 'read a list'],
  [0.9, 'read a round'],
  [1, 'trace a round'],
]

function perform(url: string, act: Act): Promise<void> {
  const round = `round:r${Math.floor(Math.random() * rounds)}`
  switch (act) {
    case 'record a step':
      return record(url, 'soak-started', { round, solution: 'enzymatic' })
    case 'read a list':
      return send(url, 'GET', '/api/known?kind=round&limit=50')
    case 'read a round':
      return send(url, 'GET', `/api/known/${round}`)
    case 'trace a round':
      return send(url, 'GET', `/api/trace/${round}`)
  }
}

async function measure(engine: string, { url, process: child }: Service): Promise<readonly BenchRow[]> {
  const took = new Map<Act, number[]>(acts.map(([, act]) => [act, []]))
  const failures: string[] = []
  const memory: number[] = []
  const loads: number[] = []
  const streams = new AbortController()
  let told = 0
  const follow = async () => {
    const response = await fetch(`${url}/api/live`, { signal: streams.signal })
    for await (const chunk of response.body ?? []) told += Buffer.from(chunk).toString().split('\nid:').length
  }
  for (let tablet = 0; tablet < tablets; tablet += 1) void follow().catch(() => {})

  const end = performance.now() + minutes * 60_000
  const tablet = async () => {
    await wait(Math.random() * thinkMilliseconds)
    while (performance.now() < end) {
      const dice = Math.random()
      const act = acts.find(([share]) => dice < share)?.[1] ?? 'read a list'
      const started = performance.now()
      try {
        await perform(url, act)
        took.get(act)?.push(performance.now() - started)
      } catch (error) {
        failures.push(String(error))
      }
      // Exponential, so that they do not fall into step.
      await wait(-Math.log(1 - Math.random()) * thinkMilliseconds)
    }
  }
  const sample = setInterval(() => {
    memory.push(residentMegabytes(child.pid))
    loads.push(loadavg()[0] ?? 0)
  }, 2000)
  await Promise.all(Array.from({ length: tablets }, tablet))
  clearInterval(sample)
  streams.abort()
  if (failures.length > 0) console.log(`  ${failures.length} failures, the first: ${failures[0]}`)

  const note = `${tablets} tablets, ${minutes} min, load of the machine ${mean(loads).toFixed(1)}, ${failures.length} failures, ${told} changes told`
  return [
    ...[...took].flatMap(([act, figures]) => latencies(`${engine}: ${act}`, figures, note)),
    { ...span(memory), name: `${engine}: memory of the service`, unit: 'MB', runs: memory.length, note },
  ]
}

function latencies(name: string, figures: readonly number[], note: string): readonly BenchRow[] {
  const sorted = figures.toSorted((a, b) => a - b)
  return [50, 95, 99].map((percent) => ({
    ...span(sorted),
    name: `${name}, p${percent}`,
    median: percentile(sorted, percent),
    unit: 'ms',
    runs: figures.length,
    note,
  }))
}

function span(figures: readonly number[]): Pick<BenchRow, 'median' | 'min' | 'max'> {
  const sorted = figures.toSorted((a, b) => a - b)
  return { median: percentile(sorted, 50), min: percentile(sorted, 0), max: percentile(sorted, 100) }
}

function mean(figures: readonly number[]): number {
  return figures.reduce((sum, figure) => sum + figure, 0) / Math.max(1, figures.length)
}

function residentMegabytes(pid: number | undefined): number {
  const text = readFileSync(`/proc/${pid}/status`, 'utf8')
  return Number(/VmRSS:\s+(\d+)/.exec(text)?.[1] ?? Number.NaN) / 1024
}
