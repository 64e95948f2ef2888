import { performance } from 'node:perf_hooks'
import type { explainNoPlan } from '#workings/planning/explain-no-plan.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import type { PlanAnswer } from '#workings/planning/plan-day.ts'
import { modelOf } from '#workings/planning/plan-model.ts'
import { PlanStanding, type Rung } from '#workings/planning/plan-standing.ts'
import { constraintSolver, type ConstraintSolver, SolverUnavailable } from '../solver/constraint-solver.ts'
import { provePlan } from './prove-plan.ts'
import { type RunningSearch, searchInThread } from './search-in-thread.ts'

/** A plan with the ladder of bounds that was climbed. */
export type BackgroundAnswer = PlanAnswer & {
  readonly rungs: readonly Rung[]
  /** Why there was no proof by a solver, when there was none to be had. */
  readonly withoutSolver?: string
}

export interface BackgroundPlan {
  readonly seconds: number
  readonly seed: number
  /** Ends it early, with the best so far. */
  readonly signal?: AbortSignal | undefined
  /** Each better plan and each higher bound, as soon as it is there. */
  readonly onPlan?: ((answer: BackgroundAnswer) => void) | undefined
  /** Work instead of time: so many decodes, then so much work of the solver for each rung; the same answer on every machine. */
  readonly work?: { readonly decodes: number; readonly solver: number } | undefined
  /** The package of the solver. */
  readonly solverPackage?: string | undefined
  /** A solver that serves several plans; whoever gives it closes it. */
  readonly solver?: ConstraintSolver | undefined
}

/** The search goes first alone for so long: most plans that can be had quickly are there, and the proof needs one to beat. */
const headStartMillis = 250

/** With so few cases the search is given so many seconds, as long as there is a solver. */
const fewCases = 16
const fewCasesSeconds = 0.6

/**
 * Plans a day without holding up the thread that asks: own search in one thread, proof by a solver in another, both until the
 * plan is proven, the time is up or the signal says so. Every plan passes the checker before it is told.
 */
export async function planInBackground(day: PlanInstance, wish: BackgroundPlan): Promise<BackgroundAnswer> {
  const run = new BackgroundRun(day, wish)
  try {
    return await run.answer()
  } finally {
    await run.close()
  }
}

type WhyNone = ReturnType<typeof explainNoPlan>

class BackgroundRun {
  readonly #day: PlanInstance
  readonly #wish: BackgroundPlan
  readonly #startedAt = performance.now()
  /** Ended with this plan. */
  #own: ConstraintSolver | undefined
  #search: RunningSearch | undefined
  #standing: PlanStanding | undefined
  readonly #early: PlanAnswer[] = []
  #withoutSolver: string | undefined

  constructor(day: PlanInstance, wish: BackgroundPlan) {
    this.#day = day
    this.#wish = wish
  }

  async answer(): Promise<BackgroundAnswer> {
    const { seed, seconds, solver: given, solverPackage } = this.#wish
    const solver = given ?? constraintSolver(solverPackage)
    if (given === undefined) this.#own = solver
    const news = this.#startSearch(this.#searchSeconds(), seed)
    const stopped = this.#stopped()
    const proven = await news.bound
    if (proven === null) {
      // It was stopped, or it failed: neither says that there is no plan.
      await news.done
      return await this.#noPlan('unknown')
    }
    if (proven.kind === 'infeasible') return await this.#noPlan('infeasible')
    const standing = new PlanStanding(this.#day, proven.bound)
    this.#standing = standing
    for (const early of this.#early) this.#hear(early)
    // Work that is counted goes one after the other, so that the proof always begins with the same plan.
    const headStart = this.#wish.work === undefined ? [afterMillis(headStartMillis)] : []
    await Promise.race([news.done, stopped, ...headStart])
    let verdict: 'done' | 'impossible' = 'done'
    if (!standing.isProven && !this.#isStopped()) verdict = await this.#prove(standing, solver)
    if (verdict === 'impossible') return await this.#noPlan('infeasible')
    if (!standing.isProven && !this.#isStopped()) {
      // Without a solver the search has all of the time.
      const again = this.#withoutSolver !== undefined && this.#searchSeconds() < seconds
      const last = again ? this.#startSearch(this.#secondsLeft(), seed + 1) : news
      await Promise.race([last.done, stopped])
    }
    // On a busy machine the time may be up before the search has begun: its own time counts from then.
    if (standing.best === undefined && this.#wish.signal?.aborted !== true) {
      const end = await news.done
      // It has said why there is none where it found none.
      if (end?.kind === 'end' && end.answer.schedule === null) return await this.#noPlan('unknown', end.answer)
    }
    return standing.best === undefined ? await this.#noPlan('unknown') : this.#told(standing, standing.best)
  }

  async close(): Promise<void> {
    await Promise.all([this.#search?.stop(), this.#own?.close()])
  }

  #startSearch(seconds: number, seed: number): RunningSearch {
    const { work } = this.#wish
    const decodes = work?.decodes ?? Number.MAX_SAFE_INTEGER
    const search = searchInThread({ kind: 'search', day: this.#day, seed, decodes, seconds }, (better) =>
      this.#hear(better),
    )
    // The bound is worked out in it too, and the next question waits for the end of this one.
    this.#wish.signal?.addEventListener('abort', () => void search.stop(), { once: true })
    this.#search = search
    return search
  }

  /** A few cases are soon searched: then the processor is left to the proof. */
  #searchSeconds(): number {
    const { work, seconds } = this.#wish
    return work === undefined && this.#day.cases.length <= fewCases ? Math.min(seconds, fewCasesSeconds) : seconds
  }

  /** A better plan of the search; the first ones may come before there is a bound to hold them against. */
  #hear(better: PlanAnswer): void {
    if (this.#standing === undefined) this.#early.push(better)
    else if (better.schedule !== null && this.#standing.offer(better.schedule)) this.#tell(this.#standing)
  }

  async #prove(standing: PlanStanding, solver: ConstraintSolver): Promise<'done' | 'impossible'> {
    const { seed, signal, work } = this.#wish
    try {
      return await provePlan(modelOf(this.#day), standing, solver, {
        seed,
        signal,
        work: work?.solver,
        secondsLeft: () => this.#secondsLeft(),
        onPlan: () => this.#tell(standing),
      })
    } catch (error) {
      if (!(error instanceof SolverUnavailable)) throw error
      if (!this.#isStopped()) this.#withoutSolver = error.message
      return 'done'
    }
  }

  #tell(standing: PlanStanding): void {
    if (standing.best !== undefined) this.#wish.onPlan?.(this.#told(standing, standing.best))
  }

  #told(standing: PlanStanding, best: NonNullable<PlanStanding['best']>): BackgroundAnswer {
    const status = standing.isProven ? 'optimal' : 'feasible'
    return { status, ...best, bound: standing.bound, rungs: standing.rungs, ...this.#note() }
  }

  async #noPlan(status: 'infeasible' | 'unknown', said?: WhyNone): Promise<BackgroundAnswer> {
    const standing = this.#standing
    await this.#search?.stop()
    const { reasons, reliefs } = said ?? (await this.#explained())
    const bound = status === 'infeasible' ? null : (standing?.bound ?? null)
    return {
      status,
      objective: null,
      bound,
      schedule: null,
      reasons,
      reliefs,
      rungs: standing?.rungs ?? [],
      ...this.#note(),
    }
  }

  /** Why there is no plan; nothing when it was stopped, since nobody asks any more. */
  async #explained(): Promise<WhyNone> {
    if (this.#wish.signal?.aborted === true) return { reasons: [], reliefs: [] }
    this.#search = searchInThread({ kind: 'explain', day: this.#day, seed: this.#wish.seed })
    const search = this.#search
    this.#wish.signal?.addEventListener('abort', () => void search.stop(), { once: true })
    const news = await this.#search.done
    return news?.kind === 'why' ? news.why : { reasons: [], reliefs: [] }
  }

  #note(): Pick<BackgroundAnswer, 'withoutSolver'> {
    return this.#withoutSolver === undefined ? {} : { withoutSolver: this.#withoutSolver }
  }

  #secondsLeft(): number {
    return this.#isStopped() ? 0 : this.#wish.seconds - (performance.now() - this.#startedAt) / 1000
  }

  #isStopped(): boolean {
    return this.#wish.signal?.aborted === true || performance.now() - this.#startedAt >= this.#wish.seconds * 1000
  }

  /** When the time is up or the signal says so. */
  #stopped(): Promise<void> {
    const { signal, seconds } = this.#wish
    return new Promise((resolve) => {
      if (signal?.aborted === true) resolve()
      signal?.addEventListener('abort', () => resolve(), { once: true })
      void afterMillis(Math.min(seconds * 1000, 2 ** 31 - 1)).then(resolve)
    })
  }
}

function afterMillis(millis: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, millis).unref()
  })
}
