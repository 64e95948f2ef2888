import type { Limit, Policy } from '../policy.ts'
import { biologicalEveryDays } from './limits.ts'
import type { ChamberMethod } from './method-of.ts'
import { gasEachLoad, parametricRelease, peroxideDaily, unverifiedPractice } from './sources.ts'

export const biologicalRhythms = ['each load', 'daily', 'weekly'] as const
export type BiologicalRhythm = (typeof biologicalRhythms)[number]

function rhythm(method: string, name: string, value: BiologicalRhythm, source: Limit['source']): Limit<string> {
  return {
    id: `biological-rhythm-${method}`,
    title: `How often ${name} is tested with a biological indicator`,
    unit: 'rhythm',
    value,
    source,
    allowed: { oneOf: [...biologicalRhythms] },
  }
}

export const biologicalRhythmLimits: Readonly<Record<Exclude<ChamberMethod, 'steam'>, Limit<string>>> = Object.freeze({
  ethyleneOxide: rhythm('ethylene-oxide', 'ethylene oxide', 'each load', gasEachLoad),
  hydrogenPeroxide: rhythm('hydrogen-peroxide', 'hydrogen peroxide', 'daily', peroxideDaily),
  formaldehyde: rhythm('formaldehyde', 'formaldehyde with steam', 'each load', {
    ...unverifiedPractice,
    clause: 'formaldehyde with steam: biological indicator in every load',
  }),
  dryHeat: rhythm('dry-heat', 'dry heat', 'weekly', {
    ...unverifiedPractice,
    clause: 'dry heat: biological indicator weekly',
  }),
})

export const parametricMethods: Limit<string> = {
  id: 'parametric-release',
  title: 'Methods that may be released on their parameters alone, without a biological indicator',
  unit: 'methods',
  value: 'none',
  source: parametricRelease,
  allowed: { oneOf: ['none', 'steam', 'steam and dry heat', 'steam, dry heat and ethylene oxide'] },
}

/** How often a method is tested with a biological indicator, and by whose word. */
export function biologicalSchedule(
  method: ChamberMethod,
  policy: Policy,
): { readonly rhythm: BiologicalRhythm; readonly days: number; readonly source: Limit['source'] } {
  if (method === 'steam') {
    const { value: days, source } = policy.limit(biologicalEveryDays)
    return { rhythm: days <= 1 ? 'daily' : 'weekly', days, source }
  }
  const { value, source } = policy.limit(biologicalRhythmLimits[method])
  const rhythm = biologicalRhythms.find((each) => each === value) ?? 'each load'
  return { rhythm, days: rhythm === 'weekly' ? 7 : 1, source }
}

const parametricNames: Readonly<Record<ChamberMethod, string | undefined>> = {
  steam: 'steam',
  dryHeat: 'dry heat',
  ethyleneOxide: 'ethylene oxide',
  hydrogenPeroxide: undefined,
  formaldehyde: undefined,
}

/** Whether the policy lets a method be released on its parameters. */
export function parametricAllowed(method: ChamberMethod, policy: Policy): boolean {
  const name = parametricNames[method]
  return name !== undefined && policy.limit(parametricMethods).value.includes(name)
}

export const scheduleLimits: readonly Limit[] = Object.freeze([
  ...Object.values(biologicalRhythmLimits),
  parametricMethods,
])
