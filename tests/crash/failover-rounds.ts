import assert from 'node:assert/strict'
import { setTimeout as wait } from 'node:timers/promises'
import { v7 } from 'uuid'
import { verify } from '#journal/verify/verify.ts'
import { theRoad } from '#road/the-road.ts'
import { startPair } from '../support/postgres-pair.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { openUnit, record } from '../service/hand.ts'

export interface FailoverResult {
  readonly acknowledged: number
  /** Acknowledged by the service and not in the record that goes on. */
  readonly lost: number
  /** From the kill to the first entry that was kept after it, by the same service. */
  readonly backMilliseconds: number
  readonly log: readonly string[]
  /** As the service saw it before and after. */
  readonly standby: readonly [unknown, unknown]
}

const tablets = 12
/** How many are acknowledged before the standby is cut off, and after the failover: the kill comes at work. */
const acknowledgedEach = 60
/** How long the standby gets nothing before the kill. Without waiting for it, what is acknowledged meanwhile is lost. */
const cutOffMilliseconds = 800
/** In the control: how many are acknowledged that the standby has not seen. */
const acknowledgedUnseen = 20

/**
 * A service under load on two servers: the standby is cut off, the first server is killed, the standby is promoted, and
 * the same service goes on. Then every entry that was ever acknowledged is looked for.
 */
export async function failover(standby: 'confirming' | 'trailing'): Promise<FailoverResult> {
  await using pair = await startPair(standby)
  await using service = await runService({ environment: { DATABASE_URL: pair.url } })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 60,
    programs: ['porous-134'],
  })
  const before = await standbyOf(service)
  const load = startLoad(service)
  await load.until((times) => times.length >= acknowledgedEach)
  await pair.cutOff()
  const cutOffAt = performance.now()
  if (standby === 'confirming') await wait(cutOffMilliseconds)
  else await load.until((times) => times.filter((time) => time > cutOffAt).length >= acknowledgedUnseen)
  const killedAt = performance.now()
  await pair.killFirst()
  await pair.promote()
  await load.until((times) => times.filter((time) => time > killedAt).length >= acknowledgedEach)
  const told = await load.stop()

  // The old server comes back and believes itself the one that takes writes: the service must not follow it.
  await pair.startFirst()
  const last = await sendOne(service)
  assert.equal(last.status, 201, JSON.stringify(last.body))
  told.push({ id: last.id, at: performance.now() })

  const there = await idsIn(service)
  const result = await verify({ at: { kind: 'postgres', url: pair.second }, road: theRoad })
  assert.equal(result.kind, 'sound', JSON.stringify(result))
  assert.equal(new Set(there).size, there.length, 'an entry is there twice')
  const kept = new Set(there)
  const back = told.find(({ at }) => at > killedAt)
  return {
    acknowledged: told.length,
    lost: told.filter(({ id }) => !kept.has(id)).length,
    backMilliseconds: (back?.at ?? Infinity) - killedAt,
    log: service.log,
    standby: [before, await standbyOf(service)],
  }
}

async function standbyOf(service: RunningService): Promise<unknown> {
  return (await service.journal.standby()).state
}

interface Told {
  readonly id: string
  readonly at: number
}

function startLoad(service: RunningService) {
  const told: Told[] = []
  const work = { going: true }
  const tablet = async () => {
    while (work.going) {
      const id = v7()
      // As a tablet does: sent again under the same id until it is answered for good.
      while (work.going && (await sendOne(service, id)).status >= 300) await wait(50)
      if (work.going) told.push({ id, at: performance.now() })
    }
  }
  const all = Promise.all(Array.from({ length: tablets }, tablet))
  return {
    async until(holds: (times: readonly number[]) => boolean) {
      const end = performance.now() + 60_000
      while (!holds(told.map(({ at }) => at))) {
        if (performance.now() > end) throw new Error(`The service did not go on: ${service.log.join('; ')}`)
        await wait(20)
      }
    },
    async stop() {
      work.going = false
      await all
      return told
    },
  }
}

async function sendOne(service: RunningService, id: string = v7()) {
  const answer = await record(
    service,
    'load-built',
    '07:00',
    { load: `load:${id}`, machine: 'machine:s1', program: 'porous-134', purpose: 'goods', rounds: [] },
    { id },
  )
  return { id, ...answer }
}

async function idsIn(service: RunningService): Promise<string[]> {
  const reader = service.journal.read('unit' as never)
  const ids: string[] = []
  for (let afterSeq = 0; ;) {
    const page = await reader.entries({ afterSeq, limit: 1000 })
    if (page.length === 0) return ids
    ids.push(...page.map(({ id }) => id))
    afterSeq = page.at(-1)?.seq ?? afterSeq
  }
}
