import { type ConstraintModel, ConstraintDraft, type Terms } from '#workings/constraints/constraint-model.ts'
import type { PlanModel } from '../plan-model.ts'
import type { PlanObjective } from '../plan-schedule.ts'
import { addCases, addCounts, type CasePart, type CountedPart } from './case-part.ts'
import { coarseModel, type CoarseModel } from './coarse-model.ts'
import { addJobs, type JobSlot } from './job-part.ts'
import { addLine, type LineTaken, type LoadPart } from './line-part.ts'

/** What is asked of a day written as constraints. */
export interface ProgramWish {
  readonly line: LineTaken
  /** What is to be small; `minutes`: overtime first, then occupied. */
  readonly goal: 'inversions' | 'overtime' | 'occupied' | 'minutes'
  /** No plan above these is looked for. */
  readonly most: PlanObjective
  /** Of the sum that `minutes` makes small, no more than this. */
  readonly mostMinutes?: number | undefined
}

/** A day as constraints, and where its parts are found in a solution. */
export interface PlanProgram {
  readonly constraints: ConstraintModel
  readonly day: CoarseModel
  readonly cases: CasePart
  readonly jobs: readonly JobSlot[]
  readonly loads: readonly LoadPart[]
  readonly counted: CountedPart
  /** How many minutes of occupied one minute of overtime outweighs when both are made small together. */
  readonly weight: number
}

/** Writes the day down. Its solutions are exactly its plans, but for names of units that are alike, when the line is taken as `loads`. */
export function planProgram(model: PlanModel, { line, goal, most, mostMinutes }: ProgramWish): PlanProgram {
  const day = coarseModel(model)
  const draft = new ConstraintDraft()
  const cases = addCases(draft, day, latestEnds(day, most))
  const counted = addCounts(draft, day, cases, most.inversions)
  const jobs = addJobs(draft, day, cases)
  const loads = addLine(draft, day, jobs, line)
  const sum = (variables: readonly number[], factor = 1): Terms => variables.map((each) => [each, factor] as const)
  const weight = occupiedWeight(model)
  const minutes = [...sum(counted.overtime, weight), ...sum(counted.occupied)]
  draft.linear(sum(counted.overtime), 0, most.overtime)
  draft.linear(sum(counted.occupied), 0, most.occupied)
  if (mostMinutes !== undefined) draft.linear(minutes, 0, mostMinutes)
  const goals = {
    inversions: sum(counted.inversions.map(({ literal }) => literal)),
    overtime: sum(counted.overtime),
    occupied: sum(counted.occupied),
    minutes,
  }
  draft.minimise(goals[goal])
  return { constraints: draft.model(), day, cases, jobs, loads, counted, weight }
}

/** More than all minutes that can be occupied. */
export function occupiedWeight({ day }: PlanModel): number {
  return 1 + day.theatres.reduce((sum, { open, hardClose }) => sum + Math.max(0, hardClose - open), 0)
}

/** No theatre ends later than with all the overtime that is allowed at most, or all the minutes occupied. */
function latestEnds({ theatres, step }: CoarseModel, most: PlanObjective): readonly number[] {
  return theatres.map(({ open, close, hardClose }) =>
    Math.min(hardClose, Math.floor((close + most.overtime) / step), open + Math.floor(most.occupied / step)),
  )
}
