import { atLeast, atMost } from '#workings/physics/at-most.ts'
import { convertHardness, type HardnessUnit } from '#workings/physics/hardness.ts'
import { figure } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { type WaterProperty, waterTable, type WaterUse } from './water-limits.ts'

export interface WaterFigures {
  readonly figures: readonly { readonly property: WaterProperty; readonly value: number }[]
  readonly hardnessUnit?: HardnessUnit | undefined
}

/** Every figure of a sample against the limits of the place where the water is used. */
export function waterFound(sample: WaterFigures, use: WaterUse, policy: Policy): readonly Found[] {
  return sample.figures.flatMap(({ property, value }) => {
    const measured =
      property === 'hardness' ? convertHardness(value, sample.hardnessUnit ?? 'mgPerLCaCO3', 'mgPerLCaCO3') : value
    return waterTable
      .filter((row) => row.use === use && row.property === property)
      .flatMap(({ kind, limit }): Found[] => {
        const { value: wanted, source } = policy.limit(limit)
        if (kind === 'most' ? atMost(measured, wanted) : atLeast(measured, wanted)) return []
        return [
          {
            weight: 'stop',
            says: `This water is not what its use asks (${limit.title}). Find the cause; until then take other water for this use.`,
            measured: `${figure(measured, 4)} ${limit.unit}`,
            limit: `${kind === 'most' ? 'at most' : 'at least'} ${wanted} ${limit.unit}`,
            source,
          },
        ]
      })
  })
}
