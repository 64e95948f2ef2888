import type { PlanModel } from './plan-model.ts'

/*
 * From choices to a schedule. The day is walked forward in time and everything starts as soon as it can, save where a
 * choice says to wait: so the same choices always give the same day, and every good day has choices that give it.
 */

/** What the search may choose. */
export interface PlanChoices {
  /** Cases in the order in which they are served when they compete. */
  readonly order: Int16Array
  /** Theatre of each case. */
  readonly theatre: Int16Array
  /** Minutes that a case waits though it could start. */
  readonly wait: Int16Array
  /** For each pool, minutes that its nth run waits for more to come. */
  readonly hold: readonly Int16Array[]
  /** For each type, which of its routes the nth unit takes that is made sterile again. */
  readonly route: readonly Uint8Array[]
  /** For each type, by how many places of the order the nth unit made sterile again goes before or after its turn. */
  readonly turn: readonly Int8Array[]
}

/** One unit on its way through the line. */
export interface DecodedJob {
  readonly type: number
  readonly unit: number
  readonly afterCase: number
  readonly route: number
  readonly due: number
  readonly starts: number[]
  readonly ends: number[]
  readonly machines: number[]
  step: number
  at: number
}

export interface Decoded {
  readonly start: Int32Array
  /** Units that serve each case: type and unit. */
  readonly served: readonly (readonly (readonly [number, number])[])[]
  readonly jobs: readonly DecodedJob[]
  /** Minutes by which cases end too late or start too late, and a great number for each that never starts. */
  readonly broken: number
}

const never = 1_000_000

export function decodePlan(model: PlanModel, choices: PlanChoices): Decoded {
  return new DayWalk(model, choices).walk()
}

interface Pool {
  readonly waiting: DecodedJob[]
  readonly freeAt: number[]
  runs: number
  /** Since when a run could start; -1 while none could. */
  since: number
}

class DayWalk {
  readonly #model: PlanModel
  readonly #choices: PlanChoices
  readonly #start: Int32Array
  readonly #served: [number, number][][]
  readonly #jobs: DecodedJob[] = []
  readonly #moving: DecodedJob[] = []
  readonly #pools: Pool[]
  /** Sterile units of each type with the minute since which they are. */
  readonly #shelf: { unit: number; since: number }[][]
  readonly #inLine: number[]
  readonly #toCome: number[]
  readonly #made: number[]
  readonly #usesBefore: number[][]
  readonly #theatreFree: number[]
  readonly #surgeonFree: number[]
  readonly #ending: { at: number; one: number }[] = []
  readonly #couldSince: Int32Array
  #left: number
  #next = 0

  constructor(model: PlanModel, choices: PlanChoices) {
    this.#model = model
    this.#choices = choices
    const count = model.cases.length
    this.#start = new Int32Array(count).fill(-1)
    this.#couldSince = new Int32Array(count).fill(-1)
    this.#served = model.cases.map(() => [])
    this.#pools = model.pools.map((pool) => ({
      waiting: [],
      freeAt: Array.from({ length: pool.count }, () => pool.from),
      runs: 0,
      since: -1,
    }))
    this.#shelf = model.types.map((type) =>
      type.avail.map((since, unit) => ({ unit, since })).sort((a, b) => a.since - b.since),
    )
    this.#inLine = model.types.map(() => 0)
    this.#toCome = model.types.map((type) => type.uses)
    this.#made = model.types.map(() => 0)
    this.#usesBefore = usesInOrder(model, choices.order)
    this.#theatreFree = model.day.theatres.map((theatre) => theatre.open)
    this.#surgeonFree = Array.from({ length: model.surgeons }, () => 0)
    this.#left = count
  }

  walk(): Decoded {
    let time = 0
    // Each pass starts or ends something, or moves time on; the bound keeps an impossible day from running for ever.
    for (let pass = 0; pass < 200_000 && (this.#left > 0 || this.#ending.length > 0); pass += 1) {
      this.#next = Number.POSITIVE_INFINITY
      this.#endCases(time)
      this.#moveJobs(time)
      this.#startCases(time)
      if (this.#left === 0) break
      if (!Number.isFinite(this.#next)) break
      time = this.#next
    }
    this.#finishJobs(time)
    return { start: this.#start, served: this.#served, jobs: this.#jobs, broken: this.#broken() }
  }

  #later(at: number): void {
    if (at < this.#next) this.#next = at
  }

  #endCases(time: number): void {
    for (let index = 0; index < this.#ending.length;) {
      const ending = this.#ending[index]
      if (ending === undefined || ending.at > time) {
        if (ending !== undefined) this.#later(ending.at)
        index += 1
        continue
      }
      this.#ending.splice(index, 1)
      for (const [type, unit] of this.#served[ending.one] ?? []) this.#release(type, unit, ending.one, time)
    }
  }

  /** A used unit goes into the line as long as more uses are to come than sterile or soon sterile units are there. */
  #release(type: number, unit: number, afterCase: number, time: number): void {
    const supply = (this.#shelf[type]?.length ?? 0) + (this.#inLine[type] ?? 0)
    if (supply >= (this.#toCome[type] ?? 0)) return
    const nth = this.#made[type] ?? 0
    const routes = this.#model.types[type]?.routes.length ?? 1
    const job: DecodedJob = {
      type,
      unit,
      afterCase,
      route: (this.#choices.route[type]?.[nth] ?? 0) % routes,
      due:
        (this.#usesBefore[type]?.[(this.#model.types[type]?.units ?? 0) + nth] ?? 0) +
        (this.#choices.turn[type]?.[nth] ?? 0),
      starts: [],
      ends: [],
      machines: [],
      step: 0,
      at: time,
    }
    this.#made[type] = nth + 1
    this.#inLine[type] = (this.#inLine[type] ?? 0) + 1
    this.#jobs.push(job)
    this.#enter(job, time)
  }

  /** Puts a job before its next step, or on the shelf when it has none left. */
  #enter(job: DecodedJob, time: number): void {
    const steps = this.#model.types[job.type]?.routes[job.route] ?? []
    const step = steps[job.step]
    if (step === undefined) {
      this.#inLine[job.type] = (this.#inLine[job.type] ?? 0) - 1
      const shelf = this.#shelf[job.type] ?? []
      const place = shelf.findIndex((each) => each.since > time)
      shelf.splice(place < 0 ? shelf.length : place, 0, { unit: job.unit, since: time })
      return
    }
    if (step.pool >= 0) {
      this.#pools[step.pool]?.waiting.push(job)
      return
    }
    this.#run(job, time, step.dur, 0)
  }

  #run(job: DecodedJob, time: number, dur: number, machine: number): void {
    job.starts.push(time)
    job.ends.push(time + dur)
    job.machines.push(machine)
    job.at = time + dur
    this.#moving.push(job)
    this.#later(job.at)
  }

  #moveJobs(time: number): void {
    for (let again = true; again;) {
      again = false
      for (let index = 0; index < this.#moving.length;) {
        const job = this.#moving[index]
        if (job === undefined || job.at > time) {
          if (job !== undefined) this.#later(job.at)
          index += 1
          continue
        }
        this.#moving.splice(index, 1)
        job.step += 1
        this.#enter(job, time)
        again = true
      }
      for (const [index, pool] of this.#pools.entries()) if (this.#serve(index, pool, time)) again = true
    }
  }

  /** Starts what can start at a pool now; whether anything did. */
  #serve(index: number, pool: Pool, time: number): boolean {
    const facts = this.#model.pools[index]
    if (facts === undefined || pool.waiting.length === 0) return false
    const machine = idlest(pool.freeAt)
    const free = pool.freeAt[machine]
    if (free === undefined) return false
    if (free > time) {
      this.#later(free)
      return false
    }
    if (pool.waiting.length > 1) pool.waiting.sort((a, b) => a.due - b.due || a.at - b.at)
    if (!facts.batch) {
      const job = pool.waiting.shift()
      const dur = job === undefined ? 0 : (this.#model.types[job.type]?.routes[job.route]?.[job.step]?.dur ?? 0)
      if (job === undefined || time + dur > facts.to) return false
      pool.freeAt[machine] = time + dur
      this.#run(job, time, dur, machine)
      return true
    }
    return this.#load(index, pool, machine, time)
  }

  #load(index: number, pool: Pool, machine: number, time: number): boolean {
    const facts = this.#model.pools[index]
    if (facts === undefined || time + facts.dur > facts.to) return false
    if (pool.since < 0) pool.since = time
    const sizeOf = (job: DecodedJob): number => this.#model.types[job.type]?.size ?? 1
    const waiting = pool.waiting.reduce((sum, job) => sum + sizeOf(job), 0)
    const until = pool.since + (this.#choices.hold[index]?.[pool.runs] ?? 0)
    if (time < until && waiting < facts.cap) {
      this.#later(until)
      return false
    }
    let places = 0
    const taken = pool.waiting.filter((job) => {
      if (places + sizeOf(job) > facts.cap) return false
      places += sizeOf(job)
      return true
    })
    if (taken.length === 0) return false
    const kept = pool.waiting.filter((job) => !taken.includes(job))
    pool.waiting.splice(0, pool.waiting.length, ...kept)
    pool.freeAt[machine] = time + facts.dur
    pool.runs += 1
    pool.since = -1
    for (const job of taken) this.#run(job, time, facts.dur, machine)
    return true
  }

  #startCases(time: number): void {
    const waiting = new Set<number>()
    for (const one of this.#choices.order) {
      if ((this.#start[one] ?? 0) >= 0) continue
      const theatre = this.#choices.theatre[one] ?? 0
      // Each theatre keeps the order of its list.
      if (waiting.has(theatre)) continue
      waiting.add(theatre)
      if (this.#startCase(one, theatre, time)) waiting.delete(theatre)
    }
  }

  #startCase(one: number, theatre: number, time: number): boolean {
    const facts = this.#model.cases[one]
    if (facts === undefined) return false
    const from = Math.max(this.#theatreFree[theatre] ?? 0, this.#surgeonFree[facts.surgeon] ?? 0, facts.earliest)
    if (from > time) {
      this.#later(from)
      return false
    }
    if (!this.#setsThere(facts.needs, time)) return false
    if ((this.#couldSince[one] ?? -1) < 0) this.#couldSince[one] = time
    const until = (this.#couldSince[one] ?? time) + (this.#choices.wait[one] ?? 0)
    if (until > time) {
      this.#later(until)
      return false
    }
    for (const [type, count] of facts.needs) {
      for (const { unit } of this.#shelf[type]?.splice(0, count) ?? []) this.#served[one]?.push([type, unit])
      this.#toCome[type] = (this.#toCome[type] ?? 0) - count
    }
    const end = time + facts.dur
    this.#start[one] = time
    this.#left -= 1
    this.#theatreFree[theatre] = end + facts.turnover
    this.#surgeonFree[facts.surgeon] = end + this.#model.day.surgeonGap
    this.#ending.push({ at: end, one })
    this.#later(end)
    return true
  }

  #setsThere(needs: readonly (readonly [number, number])[], time: number): boolean {
    for (const [type, count] of needs) {
      const shelf = this.#shelf[type] ?? []
      if (shelf.length < count) return false
      const there = (shelf[count - 1]?.since ?? 0) + (this.#model.types[type]?.lead ?? 0)
      if (there > time) {
        this.#later(there)
        return false
      }
    }
    return true
  }

  /** What is still in the line when the last case has started goes on to its end, so that each way is whole. */
  #finishJobs(from: number): void {
    let time = from
    for (let pass = 0; pass < 100_000 && this.#inLine.some((count) => count > 0); pass += 1) {
      this.#next = Number.POSITIVE_INFINITY
      this.#moveJobs(time)
      if (!Number.isFinite(this.#next)) return
      time = this.#next
    }
  }

  #broken(): number {
    let broken = 0
    for (const [one, facts] of this.#model.cases.entries()) {
      const start = this.#start[one] ?? -1
      if (start < 0) {
        broken += never
        continue
      }
      const theatre = this.#model.day.theatres[this.#choices.theatre[one] ?? 0]
      broken += Math.max(0, start + facts.dur - (theatre?.hardClose ?? 0))
      if (Number.isFinite(facts.latest)) broken += Math.max(0, start - facts.latest)
    }
    return broken
  }
}

function idlest(freeAt: readonly number[]): number {
  let best = 0
  for (let index = 1; index < freeAt.length; index += 1) if ((freeAt[index] ?? 0) < (freeAt[best] ?? 0)) best = index
  return best
}

/** For each type, the place in the order of the case that its nth use serves. */
function usesInOrder({ types, cases }: PlanModel, order: Int16Array): number[][] {
  const uses: number[][] = types.map(() => [])
  for (const [place, one] of order.entries())
    for (const [type, count] of cases[one]?.needs ?? [])
      for (let nth = 0; nth < count; nth += 1) uses[type]?.push(place)
  return uses
}
