import type { RankingCase } from './ranking-input.ts'

const acidFast = /mycobact|acid.?fast|\bafb\b|\bntm\b/i
const water = /water|rinse|outlet|tap|bath|soak|tank|flush/i

/** Rapid growers show themselves weeks after the operation; ordinary wound organisms within days. */
export const lateAfterDays = 14

const millisecondsPerDay = 86_400_000

export interface OrganismHint {
  readonly kind: 'lateAcidFast' | 'acidFast' | 'none'
  readonly medianDaysToOnset: number | null
  /** Types of exposure in the line list that the organism points at. */
  readonly types: readonly string[]
  readonly says: string
}

/** What the organism suggests. It orders the search for samples; it does not enter the statistics. */
export function organismHint(cases: readonly RankingCase[]): OrganismHint {
  const infected = cases.filter((one) => one.infected)
  const grown = infected.filter(({ organism }) => organism !== undefined && acidFast.test(organism))
  const fast = grown.length
  // Ordinary infections beside them come within days and say nothing about how late these are.
  const medianDaysToOnset = median((fast > 0 ? grown : infected).flatMap(daysToOnset))
  const types = Array.from(new Set(cases.flatMap(({ exposures }) => exposures.map(({ type }) => type))))
    .filter((type) => water.test(type))
    .sort()
  if (fast === 0)
    return { kind: 'none', medianDaysToOnset, types: [], says: 'The organisms recorded point at no kind of exposure.' }
  const late = medianDaysToOnset !== null && medianDaysToOnset >= lateAfterDays
  const count = `${fast} of ${infected.length} infected grew acid-fast organisms`
  return {
    kind: late ? 'lateAcidFast' : 'acidFast',
    medianDaysToOnset,
    types,
    says: late
      ? `${count}, ${fast === 1 ? '' : 'half of them '}${medianDaysToOnset} days${fast === 1 ? '' : ' or more'} after the operation: look at water and baths first. More may come: follow every case of that time for 90 days or more.`
      : `${count}: they live in water; look at water and baths, and follow every case of that time for 90 days or more.`,
  }
}

function daysToOnset({ date, onset }: RankingCase): number[] {
  return onset === undefined ? [] : [(Date.parse(onset) - Date.parse(date)) / millisecondsPerDay]
}

function median(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? null
}
