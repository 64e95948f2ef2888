import { atLeast, atMost } from '#workings/physics/at-most.ts'
import { figure } from '../naming.ts'
import type { Limit, Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import {
  dryHeatRows,
  gasFromC,
  gasFromHumidity,
  gasFromMgPerL,
  gasFromMinutes,
  gasToC,
  gasToHumidity,
  gasToMgPerL,
  gasToMinutes,
  peraceticFromC,
  peraceticMinutes,
  peraceticPercent,
  peraceticToC,
} from './limits.ts'
import { dryHeatTable } from './sources.ts'

/** A figure that must lie between two limits of the policy; equality is inside. */
interface Window {
  readonly name: string
  readonly unit: string
  /** Null when nobody recorded it. */
  readonly value: number | null
  readonly from: Limit<number> | null
  readonly to: Limit<number> | null
}

export interface EthyleneOxideAsked {
  readonly mgPerL: number | null
  readonly temperatureC: number | null
  readonly relativeHumidityPercent: number | null
  readonly minutes: number | null
}

export function ethyleneOxideWindow(asked: EthyleneOxideAsked, policy: Policy): readonly Found[] {
  return outside(
    [
      { name: 'gas', unit: 'mg/L', value: asked.mgPerL, from: gasFromMgPerL, to: gasToMgPerL },
      { name: 'temperature', unit: '°C', value: asked.temperatureC, from: gasFromC, to: gasToC },
      { name: 'humidity', unit: '%', value: asked.relativeHumidityPercent, from: gasFromHumidity, to: gasToHumidity },
      { name: 'exposure', unit: 'min', value: asked.minutes, from: gasFromMinutes, to: gasToMinutes },
    ],
    policy,
  )
}

export interface PeraceticAsked {
  readonly percent: number | null
  readonly temperatureC: number | null
  readonly minutes: number | null
}

export function peraceticWindow(asked: PeraceticAsked, policy: Policy): readonly Found[] {
  return outside(
    [
      { name: 'strength', unit: '%', value: asked.percent, from: peraceticPercent, to: null },
      { name: 'temperature', unit: '°C', value: asked.temperatureC, from: peraceticFromC, to: peraceticToC },
      { name: 'contact', unit: 'min', value: asked.minutes, from: peraceticMinutes, to: null },
    ],
    policy,
  )
}

/** The row at or below the plateau temperature decides; between two rows nothing is worked out. */
export function dryHeatEnough(
  asked: { readonly temperatureC: number; readonly plateauMinutes: number },
  policy: Policy,
): readonly Found[] {
  const row = dryHeatRows.find(({ temperatureC }) => atLeast(asked.temperatureC, temperatureC))
  if (row === undefined) {
    return [
      {
        weight: 'stop',
        says: 'No dry heat cycle is listed this cold. Reject the load.',
        measured: `${figure(asked.temperatureC)} °C`,
        limit: `at least ${dryHeatRows.at(-1)?.temperatureC ?? 140} °C`,
        source: dryHeatTable,
      },
    ]
  }
  const limit = policy.limit(row.minutes)
  if (atLeast(asked.plateauMinutes, limit.value)) return []
  return [
    {
      weight: 'stop',
      says: `The plateau was too short for ${row.temperatureC} °C. Heating up does not count. Reject the load.`,
      measured: `${figure(asked.plateauMinutes)} min`,
      limit: `at least ${limit.value} min`,
      source: limit.source,
    },
  ]
}

function outside(windows: readonly Window[], policy: Policy): readonly Found[] {
  return windows.flatMap((window): Found[] => {
    const { name, unit, value } = window
    const from = window.from === null ? null : policy.limit(window.from)
    const to = window.to === null ? null : policy.limit(window.to)
    const source = (from ?? to)?.source
    if (source === undefined) return []
    const span = [from === null ? '' : `from ${from.value}`, to === null ? '' : `to ${to.value}`].join(' ').trim()
    const limit = `${span} ${unit}`
    if (value === null) {
      const says = `The ${name} is not recorded: the cycle is not proven. Keep the load back.`
      return [{ weight: 'notEvaluable', says, limit, source }]
    }
    const low = from !== null && !atLeast(value, from.value)
    const high = to !== null && !atMost(value, to.value)
    if (!low && !high) return []
    return [
      {
        weight: 'stop',
        says: `The ${name} was ${low ? 'below' : 'above'} its window. Nothing in the load is sterile.`,
        measured: `${figure(value)} ${unit}`,
        limit,
        source: (low ? from : to)?.source ?? source,
      },
    ]
  })
}
