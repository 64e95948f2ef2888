import { figure } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { type SoilAnalyte, soilLimits } from './cleaning-test-limits.ts'

export interface SoilFigure {
  readonly analyte: SoilAnalyte
  readonly value: number
}

export type SoilOutcome = 'pass' | 'alert' | 'action'

/** Alert from its level on; action above its level, which is the pass limit. */
export function soilOutcome({ analyte, value }: SoilFigure, policy: Policy): SoilOutcome {
  const { alert, action } = soilLimits[analyte]
  if (value > policy.limit(action).value) return 'action'
  return value >= policy.limit(alert).value ? 'alert' : 'pass'
}

export function soilFound(measured: SoilFigure, policy: Policy): readonly Found[] {
  const { name, unit, alert, action } = soilLimits[measured.analyte]
  const outcome = soilOutcome(measured, policy)
  if (outcome === 'pass') return []
  const limit = policy.limit(outcome === 'action' ? action : alert)
  return [
    {
      weight: outcome === 'action' ? 'stop' : 'caution',
      says:
        outcome === 'action'
          ? `Too much ${name} is left. Wash again, test again, and look at how this kind of instrument is washed.`
          : `${name} is at the alert level. The instrument passes; look at the washing before it gets worse.`,
      measured: `${figure(measured.value, 3)} ${unit}`,
      limit: outcome === 'action' ? `at most ${limit.value} ${unit}` : `below ${limit.value} ${unit}`,
      source: limit.source,
    },
  ]
}
