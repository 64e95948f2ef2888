import { atLeast } from '#workings/physics/at-most.ts'
import { type AerationPair, interpolatedAerationHours, metPair } from '#workings/physics/aeration-pairs.ts'
import { figure } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { makersInstructions } from '../packing/limits.ts'
import { aerationHoursAt20, aerationHoursAt50, aerationHoursAt60 } from './limits.ts'
import { pairRule } from './sources.ts'

export interface Aerated {
  /** The coldest that it was throughout. */
  readonly temperatureC: number
  readonly hours: number
  /** What the makers of the devices in the load ask, where it is longer. */
  readonly makerHours?: number | undefined
}

const rows = [
  { temperatureC: 60, limit: aerationHoursAt60 },
  { temperatureC: 50, limit: aerationHoursAt50 },
  { temperatureC: 20, limit: aerationHoursAt20 },
] as const

/** The pairs of temperature and time in force, the warmest first. */
export function aerationPairs(policy: Policy): readonly AerationPair[] {
  return rows.map(({ temperatureC, limit }) => ({ temperatureC, hours: policy.limit(limit).value }))
}

/** Hours that an aeration at this temperature must last; null when no pair is so cold. */
export function aerationHours(temperatureC: number, policy: Policy, makerHours = 0): number | null {
  const fitting = aerationPairs(policy).filter((pair) => atLeast(temperatureC, pair.temperatureC))
  return fitting.length === 0 ? null : Math.max(makerHours, Math.min(...fitting.map((pair) => pair.hours)))
}

/**
 * Hours worked out between two listed pairs, for a temperature between them: advice, never a release. Null at a listed
 * temperature, and outside of them.
 */
export function aerationAdvice(temperatureC: number, policy: Policy): number | null {
  const pairs = aerationPairs(policy)
  return pairs.some((pair) => pair.temperatureC === temperatureC)
    ? null
    : interpolatedAerationHours(temperatureC, pairs)
}

/** The time worked out between listed pairs, told as what it is. Empty where there is none. */
export function adviceNote(temperatureC: number, policy: Policy): readonly Found[] {
  const advice = aerationAdvice(temperatureC, policy)
  if (advice === null) return []
  return [
    {
      weight: 'note',
      says: 'Worked out between the listed pairs, as advice only: it never releases a load.',
      measured: `${figure(advice, 1)} h at ${figure(temperatureC)} °C`,
      source: pairRule,
    },
  ]
}

/** Empty when a listed pair is met; otherwise what holds the load. A time worked out between pairs is told as advice. */
export function aerationHolds(aerated: Aerated, policy: Policy): readonly Found[] {
  const { temperatureC, hours, makerHours = 0 } = aerated
  const pairs = aerationPairs(policy)
  const measured = `${figure(hours)} h at ${figure(temperatureC)} °C`
  if (metPair(temperatureC, hours, pairs) !== undefined) {
    if (atLeast(hours, makerHours)) return []
    return [
      {
        weight: 'stop',
        says: 'The maker of a device in this load asks for a longer aeration. Leave the aerator closed.',
        measured,
        limit: `${figure(makerHours)} h`,
        source: makersInstructions,
      },
    ]
  }
  const advice = interpolatedAerationHours(temperatureC, pairs)
  const enough = advice !== null && atLeast(hours, advice)
  return [
    {
      weight: 'stop',
      says: enough
        ? 'A time worked out between two listed pairs does not release a load. Keep it in the aerator until a listed pair is met.'
        : 'The aeration is not done. Leave the load where it is, and the door closed.',
      measured,
      limit: pairs.map((pair) => `${pair.hours} h at ${pair.temperatureC} °C`).join(', or '),
      source: rowSource(temperatureC, policy),
    },
    ...adviceNote(temperatureC, policy),
  ]
}

function rowSource(temperatureC: number, policy: Policy): Found['source'] {
  const row = rows.find((each) => each.temperatureC === temperatureC)
  return row === undefined ? pairRule : policy.limit(row.limit).source
}
