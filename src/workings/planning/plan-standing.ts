import type { PlanInstance } from './instance.ts'
import { shownPlan } from './plan-day.ts'
import { objectiveOf } from './plan-objective.ts'
import { compareObjectives, type PlanObjective, type PlanSchedule } from './plan-schedule.ts'
import { keptTooLong } from './treat-late.ts'

/**
 * How far a bound was thought through. `list`: the work of the theatres, and for one theatre every order of its list. `sets`:
 * the units that there are, with a line where nothing waits. `flow`: staff and machines, each unit beginning its run by
 * itself. `loads`: everything as it is.
 */
export type RungName = 'list' | 'sets' | 'flow' | 'loads'

/** One rung of the ladder of bounds: no plan is better than this, and the reason in words. */
export interface Rung {
  readonly name: RungName
  readonly bound: PlanObjective
  readonly says: string
}

export interface StandingPlan {
  readonly objective: PlanObjective
  readonly schedule: PlanSchedule
}

/** The best plan so far, and how good the best could be. Plans only get better, the bound only rises. */
export class PlanStanding {
  readonly #day: PlanInstance
  #best: StandingPlan | undefined
  #bound: PlanObjective
  readonly #rungs: Rung[] = []

  constructor(day: PlanInstance, bound: PlanObjective) {
    this.#day = day
    this.#bound = bound
    this.#rungs.push({ name: 'list', bound, says: this.#says('list', bound) })
  }

  get best(): StandingPlan | undefined {
    return this.#best
  }

  get bound(): PlanObjective {
    return this.#bound
  }

  get rungs(): readonly Rung[] {
    return this.#rungs
  }

  get isProven(): boolean {
    return this.#best !== undefined && compareObjectives(this.#best.objective, this.#bound) <= 0
  }

  /** Takes a plan when it is better; throws if the checker finds it broken. */
  offer(schedule: PlanSchedule): boolean {
    const objective = objectiveOf(this.#day, schedule)
    if (this.#best !== undefined && compareObjectives(objective, this.#best.objective) >= 0) return false
    // A solver does not know how long something keeps: its bounds hold without that, its plans may not.
    if (keptTooLong(this.#day, schedule) > 0) return false
    shownPlan(this.#day, { status: 'feasible', objective, bound: this.#bound, schedule })
    this.#best = { objective, schedule }
    return true
  }

  /** Takes a bound; a rung that is no higher than the one before it is kept as well, for it says what is not in the way. */
  raise(name: RungName, bound: PlanObjective): void {
    const raised = compareObjectives(bound, this.#bound) > 0 ? bound : this.#bound
    const old = this.#rungs.findIndex((rung) => rung.name === name)
    if (old >= 0) this.#rungs.splice(old, 1)
    this.#rungs.push({ name, bound: raised, says: this.#says(name, raised) })
    this.#bound = raised
  }

  #says(name: RungName, { inversions, overtime, occupied }: PlanObjective): string {
    const order = inversions > 0 ? `${inversions} inversions, ` : ''
    const what = name === 'list' && this.#day.theatres.length === 1 ? oneList : thought[name]
    return `${what}: at least ${order}${overtime} min overtime and ${occupied} min occupied.`
  }
}

/** In one theatre every order of the list is looked at, with sets and line at their best. */
const oneList = 'Every order of the list, with the shortest way of each set through the line'

const thought: Readonly<Record<RungName, string>> = {
  list: 'The cases and turnovers of the list by themselves',
  sets: 'The sets that there are, even if nothing ever waits in the line',
  flow: 'The staff and machines of the line, even if every unit begins its run by itself',
  loads: 'The line as it is, with units of a load waiting for each other',
}
