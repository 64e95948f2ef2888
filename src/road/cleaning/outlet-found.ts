import type { Instant } from '../instant.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { recordPractice } from '../unit/limits.ts'
import type { OutletKnown } from './outlet-fold.ts'
import { waterFound } from './water-found.ts'
import { waterProperties, type WaterUse } from './water-limits.ts'

/**
 * What speaks against the water of an outlet at a moment, for a use: the newest figure of each property until then, since a
 * sample of the hardness says nothing of the bacteria, and what grew in the newest sample that was cultured.
 */
export function outletFound(outlet: OutletKnown, at: Instant, use: WaterUse, policy: Policy): readonly Found[] {
  const samples = outlet.samples.filter((sample) => sample.at <= at)
  const figures = waterProperties.flatMap((property) => {
    const sample = samples.findLast((each) => each.figures.some((figure) => figure.property === property))
    if (sample === undefined) return []
    const ofIt = sample.figures.filter((figure) => figure.property === property)
    return waterFound({ figures: ofIt, hardnessUnit: sample.hardnessUnit }, use, policy)
  })
  const cultured = samples.findLast(
    (sample) => sample.organism !== undefined || sample.figures.some(({ property }) => property === 'bacteria'),
  )
  if (cultured?.organism === undefined) return figures
  return [...figures, { weight: 'stop', says: `${cultured.organism} grew from this water.`, source: recordPractice }]
}
