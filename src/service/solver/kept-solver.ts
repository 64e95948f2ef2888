import { type ConstraintSolver, constraintSolver, SolverUnavailable } from './constraint-solver.ts'

/**
 * One thread for plans that come one after the other, since loading the solver may take as long as a proof. Where it came to
 * an end, the next plan has a new one.
 */
export function keptSolver(packageName?: string): ConstraintSolver & AsyncDisposable {
  let kept: ConstraintSolver | undefined = constraintSolver(packageName)
  const close = async (): Promise<void> => {
    await kept?.close()
    kept = undefined
  }
  return {
    async solve(model, limits, signal) {
      kept ??= constraintSolver(packageName)
      const mine = kept
      try {
        return await mine.solve(model, limits, signal)
      } catch (error) {
        if (error instanceof SolverUnavailable && kept === mine) kept = undefined
        throw error
      }
    },
    close,
    [Symbol.asyncDispose]: close,
  }
}
