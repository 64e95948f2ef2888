import { exactP } from '../exact/exact-p.ts'
import { exposedCasesOf } from '../exact/exposed-cases.ts'

export type Sided = 'greater' | 'twoSided'

/** The exact p of every count of exposed cases that the margins allow, to be looked up; index is the count. */
export function pTable(cases: number, nonCases: number, exposed: number, sided: Sided): Float64Array {
  const distribution = exposedCasesOf(cases, nonCases, exposed)
  const table = new Float64Array(Math.min(cases, exposed) + 1).fill(1)
  for (let x = distribution.low; x < table.length; x += 1) table[x] = exactP(distribution, x)[sided]
  return table
}
