import assert from 'node:assert/strict'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { openJournal } from '#journal/open-journal.ts'
import type { Place } from '#journal/place.ts'
import { verify } from '#journal/verify/verify.ts'
import { minutes, site } from '../support/entries.ts'
import { seeded } from '../support/seeded.ts'
import type { EngineUnderTest } from '../support/store-under-test.ts'
import { toyRoad } from '../support/toy-road.ts'

export interface CrashPlan {
  readonly engine: EngineUnderTest
  readonly kills: number
  readonly seed: number
  readonly honesty?: 'honest' | 'early'
  /** What else is killed at the moment of the kill: the server, for one. */
  readonly atKill?: () => Promise<void>
}

export interface CrashResult {
  readonly acknowledged: number
  /** Acknowledged and not there afterwards. */
  readonly lost: number
}

/** Rounds on one store: several, so that it is also opened with the traces of the kill before. */
const killsPerStore = 5

/** Kills a writer under load at random moments; after each kill counts what was lost and verifies the store. */
export async function crashRounds(plan: CrashPlan): Promise<CrashResult> {
  const random = seeded(plan.seed)
  let acknowledged = 0
  let lost = 0
  let round = 0
  while (round < plan.kills) {
    await using store = await plan.engine.newStore()
    const told = new Set<string>()
    for (const end = Math.min(round + killsPerStore, plan.kills); round < end; round += 1) {
      for (const id of await killWriter(plan, store.at, { round, random })) told.add(id)
      const there = await idsIn(store.at)
      const once = new Set(there)
      assert.equal(once.size, there.length, 'an entry is there twice')
      const result = await verify({ at: store.at, road: toyRoad() })
      assert.equal(result.kind, 'sound', `round ${round}, seed ${plan.seed}: ${JSON.stringify(result)}`)
      if (round === end - 1) lost += [...told].filter((id) => !once.has(id)).length
    }
    acknowledged += told.size
  }
  return { acknowledged, lost }
}

/** How long a writer works at most before it is killed: long enough for several commits of each engine. */
const workMilliseconds = { sqlite: 120, postgres: 600 }

/** Lets a writer work for a random while, kills it, and gives the ids that it had told. */
async function killWriter(
  plan: CrashPlan,
  at: Place,
  { round, random }: { round: number; random: () => number },
): Promise<string[]> {
  const seed = plan.seed * 1000 + round
  const script = fileURLToPath(new URL('./writer.ts', import.meta.url))
  const writer = spawn(process.execPath, [script, JSON.stringify(at), String(seed), plan.honesty ?? 'honest'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let told = ''
  let complaint = ''
  const firstTold = once(writer.stdout, 'data')
  writer.stdout.on('data', (chunk: Buffer) => (told += chunk.toString()))
  writer.stderr.on('data', (chunk: Buffer) => (complaint += chunk.toString()))
  const ended = once(writer, 'close')
  // One in five is killed wherever it may be in starting up, the others at work.
  if (random() < 0.2) await wait(random() * 400)
  else {
    await Promise.race([firstTold, ended])
    await wait(random() * workMilliseconds[plan.engine.name])
  }
  assert.equal(writer.exitCode, null, `the writer ended by itself: ${complaint}`)
  await plan.atKill?.()
  writer.kill('SIGKILL')
  await ended
  // A line that the kill cut short was not told.
  return told
    .slice(0, told.lastIndexOf('\n') + 1)
    .split('\n')
    .filter((id) => id !== '')
}

async function idsIn(at: Place): Promise<string[]> {
  await using journal = await openJournal({ at, road: toyRoad(), now: () => minutes(60) })
  const ids: string[] = []
  let afterSeq = 0
  while (true) {
    const page = await journal.read(site).entries({ afterSeq, limit: 1000 })
    if (page.length === 0) return ids
    ids.push(...page.map(({ id }) => id))
    afterSeq = page.at(-1)?.seq ?? afterSeq
  }
}
