import { atLeast, atMost } from '#workings/physics/at-most.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { storageFromHumidity, storageToC, storageToHumidity } from './limits.ts'

export interface StorageReading {
  readonly temperatureC: number
  readonly humidityPercent: number
}

/** What is outside the limits of a store. An excursion is looked into; it does not condemn the packs by itself. */
export function climateFindings({ temperatureC, humidityPercent }: StorageReading, policy: Policy): readonly Found[] {
  const warm = policy.limit(storageToC)
  const dry = policy.limit(storageFromHumidity)
  const damp = policy.limit(storageToHumidity)
  return [
    ...(atMost(temperatureC, warm.value)
      ? []
      : [finding('The store is too warm.', `${temperatureC} °C`, `at most ${warm.value} °C`, warm.source)]),
    ...(atLeast(humidityPercent, dry.value)
      ? []
      : [finding('The store is too dry.', `${humidityPercent} %`, `at least ${dry.value} %`, dry.source)]),
    ...(atMost(humidityPercent, damp.value)
      ? []
      : [finding('The store is too damp.', `${humidityPercent} %`, `at most ${damp.value} %`, damp.source)]),
  ]
}

function finding(what: string, measured: string, limit: string, source: Found['source']): Found {
  return {
    weight: 'caution',
    says: `${what} Find out since when and why, and look at the packs there: those that are dry and whole stay sterile.`,
    measured,
    limit,
    source,
  }
}
