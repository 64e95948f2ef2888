import { invertPositive } from './solve.ts'

/** Rows with the same covariates, and how many of them were infected. */
export interface LogisticRow {
  readonly x: readonly number[]
  readonly infected: number
  readonly total: number
}

export interface LogisticFit {
  readonly coefficients: readonly number[]
  readonly standardErrors: readonly number[]
  readonly iterations: number
}

export type LogisticResult =
  | { readonly kind: 'fit'; readonly fit: LogisticFit }
  /** Some covariates say the same thing. */
  | { readonly kind: 'redundant' }
  /** No finite maximum: the covariates separate infected from not infected. */
  | { readonly kind: 'separated' }

const mostIterations = 200
const mostHalvings = 30
/** Beyond this the odds are e^30: the search is on its way to infinity. */
const largestCoefficient = 30

/**
 * Logistic regression by Newton's method with halved steps; with `firth` the likelihood is penalised by half the ln
 * determinant of the information (Firth 1993), which always has a finite maximum.
 *
 * `x` of each row has no leading 1: the intercept is added here.
 */
export function fitLogistic(rows: readonly LogisticRow[], firth: boolean): LogisticResult {
  const design = rows.filter(({ total }) => total > 0).map((row) => ({ ...row, x: [1, ...row.x] }))
  const size = design[0]?.x.length ?? 1
  let beta = Array.from({ length: size }, () => 0)
  let here = stateAt(design, beta, firth)
  for (let iteration = 1; iteration <= mostIterations; iteration += 1) {
    if (here === undefined) return { kind: iteration === 1 ? 'redundant' : 'separated' }
    const { inverse, score, objective } = here
    const step = inverse.map((line) => dot(line, score))
    if (Math.max(...step.map(Math.abs)) < 1e-11) {
      const standardErrors = inverse.map((line, index) => Math.sqrt(line[index] ?? Number.NaN))
      return { kind: 'fit', fit: { coefficients: beta, standardErrors, iterations: iteration } }
    }
    let scale = Math.min(1, 5 / Math.max(...step.map(Math.abs)))
    let moved = beta.map((value, index) => value + scale * (step[index] ?? 0))
    let next = stateAt(design, moved, firth)
    for (let halving = 0; halving < mostHalvings && !improves(next, objective); halving += 1) {
      scale /= 2
      moved = beta.map((value, index) => value + scale * (step[index] ?? 0))
      next = stateAt(design, moved, firth)
    }
    beta = moved
    here = next
    if (!firth && Math.max(...beta.map(Math.abs)) > largestCoefficient && scaleFree(design, beta))
      return { kind: 'separated' }
  }
  return { kind: 'separated' }
}

function improves(next: { readonly objective: number } | undefined, objective: number): boolean {
  return next !== undefined && next.objective >= objective - 1e-12 * Math.abs(objective)
}

/** Whether it is the fitted odds that run away, not merely the units of a covariate. */
function scaleFree(rows: readonly LogisticRow[], beta: readonly number[]): boolean {
  return rows.some(({ x }) => Math.abs(dot(x, beta)) > largestCoefficient / 2)
}

function stateAt(rows: readonly LogisticRow[], beta: readonly number[], firth: boolean) {
  const size = beta.length
  const information = Array.from({ length: size }, () => Array.from({ length: size }, () => 0))
  let objective = 0
  for (const { x, infected, total } of rows) {
    const eta = dot(x, beta)
    const p = 1 / (1 + Math.exp(-eta))
    objective += infected * -Math.log1p(Math.exp(-eta)) - (total - infected) * Math.log1p(Math.exp(eta))
    const weight = total * p * (1 - p)
    for (const [row, line] of information.entries()) {
      const left = weight * (x[row] ?? 0)
      for (let column = 0; column < size; column += 1) line[column] = (line[column] ?? 0) + left * (x[column] ?? 0)
    }
  }
  const inverted = invertPositive(information)
  if (inverted === undefined || !Number.isFinite(objective)) return undefined
  const { inverse, logDeterminant } = inverted
  const score = Array.from({ length: size }, () => 0)
  for (const { x, infected, total } of rows) {
    const p = 1 / (1 + Math.exp(-dot(x, beta)))
    const leverage = firth
      ? total *
        p *
        (1 - p) *
        dot(
          x,
          inverse.map((line) => dot(line, x)),
        )
      : 0
    const residual = infected - total * p + leverage * (0.5 - p)
    for (let index = 0; index < size; index += 1) score[index] = (score[index] ?? 0) + (x[index] ?? 0) * residual
  }
  return { inverse, score, objective: firth ? objective + logDeterminant / 2 : objective }
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  for (const [index, value] of a.entries()) sum += value * (b[index] ?? 0)
  return sum
}
