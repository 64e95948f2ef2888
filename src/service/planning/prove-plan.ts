import type { PlanModel } from '#workings/planning/plan-model.ts'
import type { PlanObjective } from '#workings/planning/plan-schedule.ts'
import type { PlanStanding, RungName } from '#workings/planning/plan-standing.ts'
import type { LineTaken } from '#workings/planning/program/line-part.ts'
import { occupiedWeight, planProgram, type ProgramWish } from '#workings/planning/program/plan-program.ts'
import { readProgram } from '#workings/planning/program/read-program.ts'
import type { ConstraintSolver } from '../solver/constraint-solver.ts'
import type { Solved } from '../solver/solve-message.ts'
import { improvePlan } from './improve-plan.ts'
import type { ProofLimits } from './proof-limits.ts'

/** Neighbourhoods that are looked at when work is counted and not time. */
const roundsOfWork = 8
/** Of days with more cases the proof is seldom had in one piece: it may take the smaller share of the time. */
const casesInOnePiece = 16

/** One search at a time: the same model, seed and work give the same answer. */
const workers = 1

/**
 * Proves a plan or finds a better one, rung by rung: first the order by rank, then minutes. Each rung is a model with more of
 * the day in it; what it cannot beat, no plan can. Gives `impossible` when it is proven that the day has no plan.
 */
export async function provePlan(
  model: PlanModel,
  standing: PlanStanding,
  solver: ConstraintSolver,
  limits: ProofLimits,
): Promise<'done' | 'impossible'> {
  const proof = new Proof(model, standing, solver, limits)
  if (!(await proof.order())) return 'impossible'
  await proof.minutes()
  // What could not be proven in one piece may still be bettered piece by piece.
  if (!standing.isProven)
    await improvePlan(model, standing, solver, limits, limits.work === undefined ? undefined : roundsOfWork)
  return 'done'
}

class Proof {
  readonly #model: PlanModel
  readonly #standing: PlanStanding
  readonly #solver: ConstraintSolver
  readonly #limits: ProofLimits
  readonly #any: PlanObjective

  constructor(model: PlanModel, standing: PlanStanding, solver: ConstraintSolver, limits: ProofLimits) {
    this.#model = model
    this.#standing = standing
    this.#solver = solver
    this.#limits = limits
    const minutes = occupiedWeight(model)
    this.#any = { inversions: model.cases.length ** 2, overtime: minutes, occupied: minutes }
  }

  /** Finds a plan at all, then the fewest inversions; false when there is no plan. */
  async order(): Promise<boolean> {
    while (this.#standing.best === undefined && this.#hasTime()) {
      // Where units may begin their run by themselves the model is small: what is impossible there is so in every plan.
      const flow = await this.#solve({ line: 'flow', goal: 'inversions', most: this.#any }, this.#share(0.3))
      if (flow.kind === 'impossible') return false
      if (flow.kind === 'optimal') this.#raise('flow', this.#ordered(Math.round(flow.objective)))
      const loads = await this.#solve({ line: 'loads', goal: 'inversions', most: this.#any }, this.#share(1))
      if (loads.kind === 'impossible') return false
      if (loads.kind === 'optimal') this.#raise('loads', this.#ordered(Math.round(loads.objective)))
      // A plan that was found and is none, since something would lie too long in it, would be found again.
      if (loads.kind === 'nothing' || this.#standing.best === undefined) return true
    }
    for (;;) {
      const best = this.#standing.best?.objective
      if (best === undefined || best.inversions <= this.#standing.bound.inversions || !this.#hasTime()) return true
      const most = { ...this.#any, inversions: best.inversions - 1 }
      const solved = await this.#solve({ line: 'loads', goal: 'inversions', most }, this.#share(0.5))
      if (solved.kind === 'impossible') this.#raise('loads', this.#ordered(best.inversions))
      else if (solved.kind === 'optimal') this.#raise('loads', this.#ordered(Math.round(solved.objective)))
      else if (solved.kind === 'nothing') return true
    }
  }

  async minutes(): Promise<void> {
    for (const [name, line, share] of ladder) {
      for (;;) {
        const best = this.#standing.best?.objective
        if (best === undefined || this.#standing.isProven || !this.#hasTime()) return
        const part = line === 'loads' && this.#model.cases.length > casesInOnePiece ? 0.2 : share
        const solved = await this.#solve({ line, goal: 'minutes', ...this.#better(best, line) }, this.#share(part))
        this.#learn(name, solved, best)
        // A rung that found a plan in its time, and could not prove it, has a new plan to beat.
        if (line !== 'loads' || solved.kind !== 'found') break
      }
    }
  }

  /** Only plans that are better than the best; of the rungs below, everything up to it, so that they tell how far they go. */
  #better(
    { inversions, overtime, occupied }: PlanObjective,
    line: LineTaken,
  ): Pick<ProgramWish, 'most' | 'mostMinutes'> {
    const minutes = overtime * occupiedWeight(this.#model) + occupied
    return {
      most: { inversions, overtime, occupied: this.#any.occupied },
      mostMinutes: line === 'loads' ? minutes - 1 : minutes,
    }
  }

  #learn(name: RungName, solved: Solved, best: PlanObjective): void {
    // Minutes are a bound only among plans with as few inversions as there can be.
    if (best.inversions > this.#standing.bound.inversions) return
    if (solved.kind === 'impossible') this.#raise(name, best)
    else if (solved.kind !== 'nothing' || solved.bound !== null) {
      const value = Math.max(0, Math.ceil((solved.bound ?? 0) - 1e-6))
      const weight = occupiedWeight(this.#model)
      this.#raise(name, { inversions: best.inversions, overtime: Math.floor(value / weight), occupied: value % weight })
    }
  }

  #ordered(inversions: number): PlanObjective {
    const { bound } = this.#standing
    return inversions > bound.inversions ? { inversions, overtime: 0, occupied: 0 } : bound
  }

  #raise(name: RungName, bound: PlanObjective): void {
    this.#standing.raise(name, bound)
    this.#limits.onPlan()
  }

  async #solve(wish: ProgramWish, seconds: number): Promise<Solved> {
    const program = planProgram(this.#model, wish)
    const { seed, work, signal } = this.#limits
    const solved = await this.#solver.solve(program.constraints, { seconds, work, seed, workers }, signal)
    const whole = wish.line === 'loads' && (solved.kind === 'optimal' || solved.kind === 'found')
    if (whole && this.#standing.offer(readProgram(program, solved.values))) this.#limits.onPlan()
    return solved
  }

  #share(part: number): number {
    return Math.max(0.05, this.#limits.secondsLeft() * part)
  }

  #hasTime(): boolean {
    return this.#limits.secondsLeft() > 0.05
  }
}

/** Rungs in their order, each with the share of the time left that it may take. */
const ladder: readonly (readonly [RungName, LineTaken, number])[] = [
  ['sets', 'free', 0.1],
  ['flow', 'flow', 0.25],
  ['loads', 'loads', 0.8],
]
