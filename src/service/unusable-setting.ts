import { describeProblem, type Problem } from '#units/problem.ts'

/** A setting that reads well and still cannot be used, such as the name of a file that is not there. */
export class UnusableSetting extends Error {
  override name = 'UnusableSetting'

  constructor(problem: Problem) {
    super(describeProblem(problem))
  }
}
