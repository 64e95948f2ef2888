import type { BackgroundAnswer } from '#service/planning/plan-in-background.ts'

/** Why the plan is as good as it can be or by how much it may be short of it, rung by rung; or why there is none. */
export function reasonsOf(answer: BackgroundAnswer): readonly string[] {
  const none = answer.schedule === null ? answer.reasons : []
  const solver =
    answer.withoutSolver === undefined
      ? []
      : [`The bound was worked out without a solver, which could not be used: ${answer.withoutSolver}`]
  return [...none, ...answer.rungs.map(({ says }) => says), ...solver]
}
