import assert from 'node:assert/strict'
import type { rankExposures } from './rank-exposures.ts'
import { exposureRankingWorking } from './exposure-ranking.ts'

/** Runs the working as a caller from outside would. */
export function ranked(input: unknown): ReturnType<typeof rankExposures> {
  const result = exposureRankingWorking.run(input)
  assert.equal(result.kind, 'output', JSON.stringify(result))
  return (result.kind === 'output' ? result.output : undefined) as ReturnType<typeof rankExposures>
}
