import { atLeast } from '#workings/physics/at-most.ts'
import { figure } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { makersInstructions } from '../packing/limits.ts'
import { cdcSteamTable } from './sources.ts'
import { type SteamAir, type SteamItem, steamTable } from './steam-table.ts'

export interface SteamCycleAsked {
  readonly air: SteamAir
  readonly item: SteamItem
  readonly temperatureC: number
  readonly minutes: number
  readonly dryingMinutes?: number | undefined
  /** What the maker of the device asks instead, where its instructions are on file. */
  readonly maker?: { readonly temperatureC: number; readonly minutes: number } | undefined
}

/** Against the table, or against the maker's own cycle where the table has no place for it. */
export function steamAccepted(asked: SteamCycleAsked, policy: Policy): { accepted: boolean; found: readonly Found[] } {
  const row = steamTable
    .filter((each) => each.air === asked.air && each.item === asked.item && each.temperatureC <= asked.temperatureC)
    .toSorted((a, b) => b.temperatureC - a.temperatureC)
    .at(0)
  const { maker } = asked
  if (maker !== undefined) return againstMaker(asked, maker)
  if (row === undefined) {
    return refuse({
      weight: 'stop',
      says: 'The table has no such cycle. Only the maker’s own instructions can allow it; without them reject the load.',
      measured: `${asked.temperatureC} °C, ${figure(asked.minutes)} min`,
      source: cdcSteamTable,
    })
  }
  const minutes = policy.limit(row.minutes)
  const drying = policy.limit(row.dryingMinutes)
  const found: Found[] = []
  if (!atLeast(asked.minutes, minutes.value)) {
    found.push({
      weight: 'stop',
      says: `The exposure was too short for a cycle of ${row.temperatureC} °C. Reject the load.`,
      measured: `${figure(asked.minutes)} min`,
      limit: `at least ${minutes.value} min`,
      source: minutes.source,
    })
  }
  if (asked.dryingMinutes === undefined) {
    found.push({
      weight: 'caution',
      says: 'The drying is not recorded. Look at every pack after cooling; a wet one is not sterile.',
      limit: `at least ${drying.value} min`,
      source: drying.source,
    })
  } else if (!atLeast(asked.dryingMinutes, drying.value)) {
    found.push({
      weight: 'stop',
      says: 'The drying was too short: packs may be wet and let germs through. Reject the load.',
      measured: `${figure(asked.dryingMinutes)} min`,
      limit: `at least ${drying.value} min`,
      source: drying.source,
    })
  }
  return { accepted: !found.some((each) => each.weight === 'stop'), found }
}

function againstMaker(
  asked: SteamCycleAsked,
  maker: { readonly temperatureC: number; readonly minutes: number },
): { accepted: boolean; found: readonly Found[] } {
  const met = atLeast(asked.temperatureC, maker.temperatureC) && atLeast(asked.minutes, maker.minutes)
  const found: Found = {
    weight: met ? 'note' : 'stop',
    says: met
      ? 'The cycle is what the maker of the device asks.'
      : 'The cycle is less than the maker of the device asks. Reject the load.',
    measured: `${figure(asked.temperatureC)} °C, ${figure(asked.minutes)} min`,
    limit: `at least ${maker.temperatureC} °C, ${maker.minutes} min`,
    source: makersInstructions,
  }
  return { accepted: met, found: [found] }
}

function refuse(found: Found): { accepted: boolean; found: readonly Found[] } {
  return { accepted: false, found: [found] }
}
