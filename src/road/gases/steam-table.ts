import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'
import { cdcSteamTable, st79At135 } from './sources.ts'

/* Shortest exposure and drying of steam cycles by steriliser, item and temperature. A place that is not here has no general figure. */

export const steamItems = ['wrappedInstruments', 'textilePack', 'wrappedUtensils'] as const
export type SteamItem = (typeof steamItems)[number]
export type SteamAir = 'gravity' | 'prevacuum'

export interface SteamRow {
  readonly air: SteamAir
  readonly item: SteamItem
  readonly temperatureC: number
  readonly minutes: Limit<number>
  readonly dryingMinutes: Limit<number>
}

const itemWords: Readonly<Record<SteamItem, { readonly id: string; readonly name: string }>> = {
  wrappedInstruments: { id: 'instruments', name: 'wrapped instruments' },
  textilePack: { id: 'textiles', name: 'textile packs' },
  wrappedUtensils: { id: 'utensils', name: 'wrapped utensils' },
}

function row(
  air: SteamAir,
  item: SteamItem,
  temperatureC: number,
  times: { readonly minutes: number; readonly drying: number; readonly source: Source },
): SteamRow {
  const { id, name } = itemWords[item]
  const where = `${air === 'gravity' ? 'gravity' : 'dynamic air removal'}, ${name}, ${temperatureC} °C`
  const limit = (what: string, title: string, value: number): Limit<number> => ({
    id: `steam-${air}-${temperatureC}-${id}-${what}`,
    title: `${title}: ${where}`,
    unit: 'minutes',
    value,
    source: times.source,
    allowed: { from: 1, to: 120 },
  })
  return {
    air,
    item,
    temperatureC,
    minutes: limit('exposure', 'Shortest exposure', times.minutes),
    dryingMinutes: limit('drying', 'Shortest drying', times.drying),
  }
}

export const steamTable: readonly SteamRow[] = Object.freeze([
  row('gravity', 'wrappedInstruments', 121, { minutes: 30, drying: 15, source: cdcSteamTable }),
  row('gravity', 'textilePack', 121, { minutes: 30, drying: 15, source: cdcSteamTable }),
  row('gravity', 'wrappedUtensils', 121, { minutes: 30, drying: 15, source: cdcSteamTable }),
  row('gravity', 'wrappedInstruments', 132, { minutes: 15, drying: 15, source: cdcSteamTable }),
  row('gravity', 'textilePack', 132, { minutes: 25, drying: 15, source: cdcSteamTable }),
  row('gravity', 'wrappedUtensils', 132, { minutes: 15, drying: 15, source: cdcSteamTable }),
  row('gravity', 'wrappedInstruments', 135, { minutes: 10, drying: 30, source: st79At135 }),
  row('gravity', 'textilePack', 135, { minutes: 10, drying: 30, source: st79At135 }),
  row('gravity', 'wrappedUtensils', 135, { minutes: 10, drying: 30, source: st79At135 }),
  row('prevacuum', 'wrappedInstruments', 132, { minutes: 4, drying: 20, source: cdcSteamTable }),
  row('prevacuum', 'textilePack', 132, { minutes: 4, drying: 5, source: cdcSteamTable }),
  row('prevacuum', 'wrappedUtensils', 132, { minutes: 4, drying: 20, source: cdcSteamTable }),
  row('prevacuum', 'wrappedInstruments', 135, { minutes: 3, drying: 16, source: st79At135 }),
  row('prevacuum', 'textilePack', 135, { minutes: 3, drying: 3, source: st79At135 }),
  row('prevacuum', 'wrappedUtensils', 135, { minutes: 3, drying: 16, source: st79At135 }),
])

export const steamTableLimits: readonly Limit<number>[] = steamTable.flatMap(({ minutes, dryingMinutes }) => [
  minutes,
  dryingMinutes,
])
