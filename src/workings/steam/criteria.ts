import { judgeDrying, judgePulses } from './criteria-asked.ts'
import { judgeBand, judgeHold, judgeSaturationBand, judgeSpread } from './criteria-holding.ts'
import { judgeEquilibration, judgeTopAfter, judgeTopFirst } from './criteria-plateau.ts'
import type { CriterionResult, CycleFacts, SteamCriterion } from './criterion.ts'

/** Everything a cycle is judged by, in the order in which people read it. */
const criteria: readonly ((facts: CycleFacts) => SteamCriterion | null)[] = Object.freeze([
  judgeHold,
  judgeBand,
  judgeSaturationBand,
  judgeSpread,
  judgeEquilibration,
  judgeTopFirst,
  judgeTopAfter,
  judgePulses,
  judgeDrying,
])

/** 'met' needs these, where the programme has them; the others belong to qualification, and their sensors may be missing. */
const needed: ReadonlySet<SteamCriterion['id']> = new Set(['hold', 'band', 'satBand', 'spread', 'pulses', 'drying'])

export function judgeCycle(facts: CycleFacts): SteamCriterion[] {
  return criteria.map((criterion) => criterion(facts)).filter((judged) => judged !== null)
}

/**
 * One criterion broken outright is enough for 'notMet'. 'met' asks that every needed criterion is evaluable and met; one of
 * the others stands against it only when its sensor is there and reads beyond the limit, even if too near to it to tell.
 */
export function verdictOf(judged: readonly SteamCriterion[]): CriterionResult {
  if (judged.some(({ result }) => result === 'notMet')) return 'notMet'
  return judged.every((criterion) => criterion.result === 'met' || mayStayOpen(criterion)) ? 'met' : 'notEvaluable'
}

function mayStayOpen({ id, doubtful, measured, limit }: SteamCriterion): boolean {
  if (needed.has(id)) return false
  return !(doubtful && measured !== null && measured > limit)
}
