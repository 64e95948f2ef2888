import type { ChartKnown } from './fold.ts'
import type { CaseLine } from './line.ts'
import type { RiskFactor } from './entries.ts'

type Model = NonNullable<ChartKnown['model']>

/** Which factors of the model an operation has. A factor that nobody recorded counts as absent. */
export function factorsOf(line: CaseLine, longOperationMinutes: number): Readonly<Record<RiskFactor, boolean>> {
  return {
    asa3OrMore: (line.asa ?? 0) >= 3,
    contaminatedOrDirty: line.woundClass === 'III' || line.woundClass === 'IV',
    longOperation: line.minutes > longOperationMinutes,
    implant: line.implant,
    converted: line.converted,
  }
}

/** The forecast risk of infection of one operation by the model that is kept. */
export function riskOf(
  line: CaseLine,
  model: Pick<Model, 'intercept' | 'coefficients' | 'longOperationMinutes'>,
): number {
  const has = factorsOf(line, model.longOperationMinutes)
  const logit = Object.entries(model.coefficients).reduce(
    (sum, [factor, coefficient]) => sum + (has[factor as RiskFactor] ? coefficient : 0),
    model.intercept,
  )
  return 1 / (1 + Math.exp(-logit))
}
