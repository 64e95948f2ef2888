import type { Problem } from '#units/problem.ts'
import type { rankExposures } from '#workings/statistics/exposure-ranking/rank-exposures.ts'
import type { RankingInput } from '#workings/statistics/exposure-ranking/ranking-input.ts'
import type { CycleLogAnswer } from '../api-types.ts'
import type { CycleTask } from '../cycles/read-cycles.ts'
import type { ReadList } from '#road/list-import/appointment.ts'
import type { ListTask } from '../list-import/read-list.ts'
import type { PlanTask, PlanWork } from '../planning/plan-work.ts'
import type { SimulatedDay, SimulateTask } from '../planning/simulate-work.ts'

/** Work that burns the processor, as it is sent to a worker thread: plain data only. */
export type Task =
  | ({ readonly kind: 'readCycles' } & CycleTask)
  | { readonly kind: 'rankExposures'; readonly input: RankingInput }
  | { readonly kind: 'explainPlan'; readonly about: PlanTask }
  | { readonly kind: 'simulatePlan'; readonly about: SimulateTask }
  | { readonly kind: 'readList'; readonly about: ListTask }
  | { readonly kind: 'work'; readonly working: string; readonly input: unknown }

export type Ranking = ReturnType<typeof rankExposures>

export type TaskAnswer =
  | { readonly kind: 'ranking'; readonly ranking: Ranking }
  | { readonly kind: 'explained'; readonly work: PlanWork }
  | { readonly kind: 'simulated'; readonly work: SimulatedDay }
  | { readonly kind: 'cycles'; readonly answer: CycleLogAnswer }
  | { readonly kind: 'list'; readonly list: ReadList }
  | { readonly kind: 'output'; readonly output: unknown }
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

export interface TaskMessage {
  readonly number: number
  readonly task: Task
}

export type AnswerMessage =
  | { readonly number: number; readonly answer: TaskAnswer }
  | { readonly number: number; readonly failure: string }
