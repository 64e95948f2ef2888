import type { Limit } from '../policy.ts'
import { incubationHours, incubatorFromC, incubatorToC } from './limits.ts'
import type { ChamberMethod } from './method-of.ts'
import { biologicalByMethod, populationRecalled } from './sources.ts'

/** What a biological indicator of a method is, and how it is incubated. */
export interface BiologicalIndicator {
  readonly organism: string
  /** Spores on an indicator, at least. */
  readonly population: number
  readonly populationSource: typeof populationRecalled
  readonly fromC: Limit<number>
  readonly toC: Limit<number>
  readonly hours: Limit<number>
}

const warm = 'Geobacillus stearothermophilus'
const mild = 'Bacillus atrophaeus'

function incubation(method: string, name: string, warmth: readonly [number, number], hours: number) {
  const [from, to] = warmth
  const source = { ...biologicalByMethod, clause: `${name}: ${from} to ${to} °C, ${hours} h` }
  const celsius = { unit: '°C', source, allowed: { from: 20, to: 70 } }
  return {
    fromC: {
      id: `incubator-from-c-${method}`,
      title: `Coldest incubator for the indicator of ${name}`,
      value: from,
      ...celsius,
    },
    toC: {
      id: `incubator-to-c-${method}`,
      title: `Warmest incubator for the indicator of ${name}`,
      value: to,
      ...celsius,
    },
    hours: {
      id: `incubation-hours-${method}`,
      title: `Shortest incubation of the indicator of ${name}; a rapid indicator needs less by its maker`,
      unit: 'hours',
      value: hours,
      source,
      allowed: { from: 0.3, to: 168 },
    },
  } satisfies Record<string, Limit<number>>
}

const common = { populationSource: populationRecalled }

/** By method: the organism, the warmth it grows at and how long it is given. */
export const biologicalIndicators: Readonly<Record<ChamberMethod, BiologicalIndicator>> = Object.freeze({
  steam: {
    organism: warm,
    population: 1e5,
    ...common,
    fromC: incubatorFromC,
    toC: incubatorToC,
    hours: incubationHours,
  },
  ethyleneOxide: {
    organism: mild,
    population: 1e6,
    ...common,
    ...incubation('ethylene-oxide', 'ethylene oxide', [30, 37], 48),
  },
  hydrogenPeroxide: {
    organism: warm,
    population: 1e6,
    ...common,
    ...incubation('hydrogen-peroxide', 'hydrogen peroxide', [55, 60], 24),
  },
  formaldehyde: {
    organism: warm,
    population: 1e5,
    ...common,
    ...incubation('formaldehyde', 'formaldehyde with steam', [55, 60], 24),
  },
  dryHeat: { organism: mild, population: 1e6, ...common, ...incubation('dry-heat', 'dry heat', [35, 37], 48) },
})

export const incubationLimits: readonly Limit<number>[] = Object.freeze(
  Object.entries(biologicalIndicators)
    .filter(([method]) => method !== 'steam')
    .flatMap(([, { fromC, toC, hours }]) => [fromC, toC, hours]),
)
