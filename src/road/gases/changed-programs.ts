import { type GasProgram, gasPrograms, type GasVariable } from '#workings/gas/gas-program.ts'
import type { Limit, Policy } from '../policy.ts'
import * as limits from './limits.ts'
import * as windows from './window-limits.ts'

interface ProgramLimits {
  readonly windows: Readonly<Partial<Record<GasVariable, readonly [Limit<number>, Limit<number>]>>>
  readonly shortest?: Limit<number>
  readonly longest?: Limit<number>
}

const peroxideGas = [windows.peroxideFromMgPerL, windows.peroxideToMgPerL] as const

const limitsOf: Readonly<Record<string, ProgramLimits>> = {
  'ethylene-oxide': {
    windows: {
      concentrationMgPerL: [limits.gasFromMgPerL, limits.gasToMgPerL],
      temperatureC: [limits.gasFromC, limits.gasToC],
      relativeHumidityPercent: [limits.gasFromHumidity, limits.gasToHumidity],
    },
    shortest: limits.gasFromMinutes,
    longest: limits.gasToMinutes,
  },
  'peroxide-vapour': {
    windows: { concentrationMgPerL: peroxideGas, temperatureC: [windows.vapourFromC, windows.vapourToC] },
  },
  'peroxide-plasma': {
    windows: { concentrationMgPerL: peroxideGas, temperatureC: [windows.plasmaFromC, windows.plasmaToC] },
  },
  'formaldehyde-steam': { windows: { temperatureC: [limits.formaldehydeFromC, limits.formaldehydeToC] } },
}

/**
 * The published gas and dry heat programmes that the policy of a unit changes, by their keys, as logs are to be read by
 * them. A programme that the policy leaves as it is published is left out, so that its reading cites what was published.
 */
export function changedPrograms(policy: Policy): Readonly<Record<string, GasProgram>> {
  return Object.fromEntries(
    gasPrograms.flatMap(({ key, program }) => {
      const now = underPolicy(key, program, policy)
      return JSON.stringify(now) === JSON.stringify(program) ? [] : [[key, now]]
    }),
  )
}

function underPolicy(key: string, program: GasProgram, policy: Policy): GasProgram {
  if (program.method === 'dryHeat') return dryHeatUnder(key, program, policy)
  const its = limitsOf[key]
  if (its === undefined) return program
  return {
    ...program,
    windows: program.windows.map((window) => {
      const pair = its.windows[window.variable]
      return pair === undefined
        ? window
        : { ...window, from: policy.limit(pair[0]).value, to: policy.limit(pair[1]).value }
    }),
    ...(its.shortest === undefined ? {} : { exposureSeconds: policy.limit(its.shortest).value * 60 }),
    ...(its.longest === undefined ? {} : { longestExposureSeconds: policy.limit(its.longest).value * 60 }),
  }
}

function dryHeatUnder(key: string, program: GasProgram, policy: Policy): GasProgram {
  const row = limits.dryHeatRows.find(({ temperatureC }) => key === `dry-heat-${temperatureC}`)
  if (row === undefined) return program
  const { temperatureC, minutes } = row
  const to = temperatureC + policy.limit(windows.dryHeatSpanC).value
  return {
    ...program,
    windows: [{ variable: 'temperatureC', from: temperatureC, to }],
    exposureSeconds: policy.limit(minutes).value * 60,
  }
}
