import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'
import { immediateUseTableRows } from './immediate-use-table.ts'
import { airLimits } from './air-limits.ts'
import { residueLimits } from './residue-limits.ts'
import {
  aerationPair,
  ambientAeration,
  dryHeatRecalled,
  dryHeatTable,
  formaldehydeStandard,
  gasExposure,
  gasWindow,
  peraceticTable,
} from './sources.ts'
import { steamTableLimits } from './steam-table.ts'
import { windowLimits } from './window-limits.ts'

function figure(
  id: string,
  title: string,
  value: number,
  rest: { readonly unit: string; readonly source: Source; readonly from: number; readonly to: number },
): Limit<number> {
  const { unit, source, from, to } = rest
  return { id, title, unit, value, source, allowed: { from, to } }
}

const mgPerL = { unit: 'mg/L', source: gasWindow, from: 100, to: 2000 }
const gasC = { unit: '°C', source: gasWindow, from: 20, to: 80 }
const humidity = { unit: '%', source: gasWindow, from: 10, to: 100 }
const gasMinutes = { unit: 'minutes', source: gasExposure, from: 30, to: 1440 }
const formaldehydeC = { unit: '°C', source: formaldehydeStandard, from: 40, to: 90 }

/** Ethylene oxide: what every moment of the exposure must keep to. */
export const gasFromMgPerL = figure('gas-from-mg-per-l', 'Ethylene oxide: weakest gas', 450, mgPerL)
export const gasToMgPerL = figure('gas-to-mg-per-l', 'Ethylene oxide: strongest gas', 1200, mgPerL)
export const gasFromC = figure('gas-from-c', 'Ethylene oxide: coldest exposure', 37, gasC)
export const gasToC = figure('gas-to-c', 'Ethylene oxide: hottest exposure', 63, gasC)
export const gasFromHumidity = figure('gas-from-humidity', 'Ethylene oxide: driest exposure', 40, humidity)
export const gasToHumidity = figure('gas-to-humidity', 'Ethylene oxide: dampest exposure', 80, humidity)
export const gasFromMinutes = figure('gas-from-minutes', 'Ethylene oxide: shortest exposure', 60, gasMinutes)
export const gasToMinutes = figure('gas-to-minutes', 'Ethylene oxide: longest exposure', 360, gasMinutes)

export const formaldehydeFromC = figure(
  'formaldehyde-from-c',
  'Steam with formaldehyde: coldest exposure that is accepted without spores in the load',
  55,
  formaldehydeC,
)
export const formaldehydeToC = figure(
  'formaldehyde-to-c',
  'Steam with formaldehyde: hottest exposure',
  80,
  formaldehydeC,
)

const peracetic = { source: peraceticTable }
export const peraceticFromC = figure('peracetic-from-c', 'Peracetic acid: coldest bath', 50, {
  ...peracetic,
  unit: '°C',
  from: 40,
  to: 60,
})
export const peraceticToC = figure('peracetic-to-c', 'Peracetic acid: hottest bath', 56, {
  ...peracetic,
  unit: '°C',
  from: 40,
  to: 70,
})
export const peraceticMinutes = figure('peracetic-minutes', 'Peracetic acid: shortest contact', 12, {
  ...peracetic,
  unit: 'minutes',
  from: 5,
  to: 120,
})
export const peraceticPercent = figure('peracetic-percent', 'Peracetic acid: weakest bath', 0.2, {
  ...peracetic,
  unit: '%',
  from: 0.05,
  to: 1,
})

/** Dry heat: the time on the plateau, heating up not counted. */
export const dryHeatRows: readonly { readonly temperatureC: number; readonly minutes: Limit<number> }[] = (
  [
    [180, 30, dryHeatTable],
    [170, 60, dryHeatTable],
    [160, 120, dryHeatTable],
    [150, 180, dryHeatRecalled],
    [140, 180, dryHeatRecalled],
  ] as const
).map(([temperatureC, minutes, source]) => ({
  temperatureC,
  minutes: figure(`dry-heat-${temperatureC}-minutes`, `Dry heat: shortest plateau at ${temperatureC} °C`, minutes, {
    unit: 'minutes',
    source,
    from: 10,
    to: 600,
  }),
}))

const hours = { unit: 'hours', from: 1, to: 1000 }
export const aerationHoursAt60 = figure('aeration-hours-at-60-c', 'Aeration at 60 °C or warmer', 8, {
  ...hours,
  source: aerationPair,
})
export const aerationHoursAt50 = figure('aeration-hours-at-50-c', 'Aeration at 50 °C or warmer', 12, {
  ...hours,
  source: aerationPair,
})
export const aerationHoursAt20 = figure(
  'aeration-hours-at-20-c',
  'Aeration at 20 °C or warmer, in a ventilated place where nobody works',
  168,
  { ...hours, source: ambientAeration },
)

export const gasLimits: readonly Limit<number>[] = Object.freeze([
  ...steamTableLimits,
  ...immediateUseTableRows.map((row) => row.minutes),
  gasFromMgPerL,
  gasToMgPerL,
  gasFromC,
  gasToC,
  gasFromHumidity,
  gasToHumidity,
  gasFromMinutes,
  gasToMinutes,
  formaldehydeFromC,
  formaldehydeToC,
  peraceticFromC,
  peraceticToC,
  peraceticMinutes,
  peraceticPercent,
  ...dryHeatRows.map((row) => row.minutes),
  ...windowLimits,
  aerationHoursAt60,
  aerationHoursAt50,
  aerationHoursAt20,
  ...residueLimits,
  ...airLimits,
])
