import { type LatticeSteps, latticeRunLengths, latticeSignalProbability } from './lattice-run-length.ts'

/** Risks of the unit's patients with their shares, and the odds ratio that the chart looks for. */
export interface RiskMix {
  readonly risks: readonly number[]
  readonly mixWeights: readonly number[]
  readonly oddsRatioAlt: number
}

/** Cells between 0 and the limit. */
const fineCells = 1500

/** Log-likelihood scores of a patient of risk p, infected and not infected, odds ratio R against 1 (Steiner 2000). */
export function riskAdjustedWeights(p: number, oddsRatioAlt: number): [number, number] {
  const denominator = Math.log1p((oddsRatioAlt - 1) * p)
  return [Math.log(oddsRatioAlt) - denominator, -denominator]
}

/**
 * Average run length, procedures, when the true odds are `trueOddsRatio` times the predicted ones.
 *
 * Markov chain on a fine lattice; each score is split between its two neighbours so that its mean is kept (paired
 * rounding), which takes away the bias of simple rounding.
 */
export function riskAdjustedRunLength(
  mix: RiskMix,
  h: number,
  trueOddsRatio: number,
  start = 0,
  cells = fineCells,
): number {
  const cell = h / cells
  const lengths = latticeRunLengths(stepsOf(mix, cell, trueOddsRatio), cells)
  const at = Math.max(0, start / cell)
  if (at >= cells) return 0
  const low = Math.floor(at)
  const share = at - low
  return (lengths[low] ?? 0) * (1 - share) + (lengths[low + 1] ?? 0) * share
}

/** Cells for the chance within a number of procedures, where every step is walked. */
const walkedCells = 400

/** Probability of a signal within `count` procedures at the predicted risks, from `start`, on the same lattice. */
export function riskAdjustedSignalWithin(mix: RiskMix, h: number, count: number, start = 0): number {
  const cell = h / walkedCells
  const steps = stepsOf(mix, cell, 1)
  const at = Math.max(0, start / cell)
  const low = Math.floor(at)
  const share = at - low
  const from = (state: number) => latticeSignalProbability(steps, walkedCells, count, state)
  return share === 0 ? from(low) : from(low) * (1 - share) + from(low + 1) * share
}

function stepsOf({ risks, mixWeights, oddsRatioAlt }: RiskMix, cell: number, trueOddsRatio: number): LatticeSteps {
  const total = mixWeights.reduce((sum, weight) => sum + weight, 0)
  const chances = new Map<number, number>()
  const add = (score: number, chance: number) => {
    const at = score / cell
    const low = Math.floor(at)
    chances.set(low, (chances.get(low) ?? 0) + chance * (1 - (at - low)))
    chances.set(low + 1, (chances.get(low + 1) ?? 0) + chance * (at - low))
  }
  for (const [index, risk] of risks.entries()) {
    const share = (mixWeights[index] ?? 0) / total
    const chance = (trueOddsRatio * risk) / (1 + (trueOddsRatio - 1) * risk)
    const [infected, notInfected] = riskAdjustedWeights(risk, oddsRatioAlt)
    add(infected, share * chance)
    add(notInfected, share * (1 - chance))
  }
  const least = Math.min(...chances.keys())
  const most = Math.max(...chances.keys())
  return {
    least,
    probabilities: Array.from({ length: most - least + 1 }, (_, index) => chances.get(least + index) ?? 0),
  }
}
