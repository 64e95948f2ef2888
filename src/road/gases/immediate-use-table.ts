import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'
import { immediateUseRecalled, immediateUseTable } from './sources.ts'

/* Shortest exposure of steam for immediate use. Drying is not asked: the item goes wet and hot to the field. */

export const immediateItems = ['solidMetal', 'porousOrLumened'] as const
export type ImmediateItem = (typeof immediateItems)[number]
export type ImmediateAir = 'gravity' | 'prevacuum' | 'flushPulse'

export interface ImmediateRow {
  readonly air: ImmediateAir
  readonly item: ImmediateItem
  readonly temperatureC: number
  readonly minutes: Limit<number>
}

const airWords: Readonly<Record<ImmediateAir, string>> = {
  gravity: 'gravity',
  prevacuum: 'prevacuum',
  flushPulse: 'steam-flush pressure-pulse',
}

function row(
  air: ImmediateAir,
  item: ImmediateItem,
  at: { readonly temperatureC: number; readonly minutes: number; readonly source: Source },
): ImmediateRow {
  const solid = item === 'solidMetal'
  const { temperatureC, minutes, source } = at
  return {
    air,
    item,
    temperatureC,
    minutes: {
      id: `immediate-use-${air.toLowerCase()}-${temperatureC}-${solid ? 'solid' : 'lumened'}`,
      title: `Immediate use: shortest exposure, ${airWords[air]}, ${temperatureC} °C, ${solid ? 'solid metal' : 'porous, lumened or mixed'}`,
      unit: 'minutes',
      value: minutes,
      source,
      allowed: { from: 1, to: 60 },
    },
  }
}

export const immediateUseTableRows: readonly ImmediateRow[] = Object.freeze([
  row('gravity', 'solidMetal', { temperatureC: 132, minutes: 3, source: immediateUseTable }),
  row('gravity', 'porousOrLumened', { temperatureC: 132, minutes: 10, source: immediateUseTable }),
  row('prevacuum', 'solidMetal', { temperatureC: 132, minutes: 3, source: immediateUseTable }),
  row('prevacuum', 'porousOrLumened', { temperatureC: 132, minutes: 4, source: immediateUseTable }),
  row('flushPulse', 'solidMetal', { temperatureC: 132, minutes: 4, source: immediateUseRecalled }),
  row('flushPulse', 'porousOrLumened', { temperatureC: 132, minutes: 4, source: immediateUseRecalled }),
  row('gravity', 'solidMetal', { temperatureC: 135, minutes: 3, source: immediateUseRecalled }),
  row('gravity', 'porousOrLumened', { temperatureC: 135, minutes: 10, source: immediateUseRecalled }),
  row('prevacuum', 'solidMetal', { temperatureC: 135, minutes: 3, source: immediateUseRecalled }),
  row('prevacuum', 'porousOrLumened', { temperatureC: 135, minutes: 3, source: immediateUseRecalled }),
  row('flushPulse', 'solidMetal', { temperatureC: 135, minutes: 3, source: immediateUseRecalled }),
  row('flushPulse', 'porousOrLumened', { temperatureC: 135, minutes: 3, source: immediateUseRecalled }),
])
