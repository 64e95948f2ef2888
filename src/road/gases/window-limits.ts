import type { Source } from '#units/source.ts'
import { peroxideChamber, plasmaHeat } from '#workings/gas/gas-program.ts'
import type { Limit } from '../policy.ts'

/* Windows of logged cycles that no other rule asks for. */

function figure(id: string, title: string, value: number, unit: string, source: Source): Limit<number> {
  return { id, title, unit, value, source, allowed: { from: value / 10, to: value * 3 } }
}

export const peroxideFromMgPerL = figure(
  'peroxide-from-mg-per-l',
  'Hydrogen peroxide: weakest gas',
  2,
  'mg/L',
  peroxideChamber,
)
export const peroxideToMgPerL = figure(
  'peroxide-to-mg-per-l',
  'Hydrogen peroxide: strongest gas',
  10,
  'mg/L',
  peroxideChamber,
)
export const vapourFromC = figure(
  'peroxide-vapour-from-c',
  'Hydrogen peroxide vapour: coldest exposure',
  37,
  '°C',
  peroxideChamber,
)
export const vapourToC = figure(
  'peroxide-vapour-to-c',
  'Hydrogen peroxide vapour: hottest exposure',
  55,
  '°C',
  peroxideChamber,
)
export const plasmaFromC = figure(
  'peroxide-plasma-from-c',
  'Hydrogen peroxide plasma: coldest exposure',
  37,
  '°C',
  plasmaHeat,
)
export const plasmaToC = figure(
  'peroxide-plasma-to-c',
  'Hydrogen peroxide plasma: hottest exposure',
  50,
  '°C',
  plasmaHeat,
)
/** No published table says how hot is too hot: the band keeps a log in the row of its own programme. */
export const dryHeatSpanC = figure(
  'dry-heat-span-c',
  'Dry heat: how far above its temperature a plateau may go',
  20,
  '°C',
  {
    title: 'Dry heat: band of the plateau',
    clause: '20 °C above the temperature of the programme',
    status: 'proposal',
  },
)

export const windowLimits: readonly Limit<number>[] = [
  peroxideFromMgPerL,
  peroxideToMgPerL,
  vapourFromC,
  vapourToC,
  plasmaFromC,
  plasmaToC,
  dryHeatSpanC,
]
