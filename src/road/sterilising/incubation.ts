import { atLeast, atMost } from '#workings/physics/at-most.ts'
import type { LotKnown } from '../consumables/lot-fold.ts'
import type { Bodies } from '../kinds.ts'
import type { SubjectId } from '../subject.ts'

/** What a biological indicator needs before no growth counts. */
export interface WantedIncubation {
  /** Hours by the method; the lot of a rapid indicator may need less, or more. */
  readonly hours: number
  /** Warmth by the method, °C; the lot may need another. */
  readonly fromC: number
  readonly toC: number
  /** What is known of the lot of an indicator: how its maker wants it incubated is with it, and only there. */
  readonly lotOf: LotOfIndicator
}

export type LotOfIndicator = (lot: SubjectId<'lot'>) => Pick<LotKnown, 'incubation'> | undefined

/** Where no lot is known: the method decides. */
export const noLotKnown: LotOfIndicator = () => undefined

export type IndicatorRead = Pick<
  Bodies['biological-read'],
  'incubatedHours' | 'makersHours' | 'incubatorC' | 'reader' | 'fromLot'
>

/** Why no growth in a reading proves nothing, by how it was incubated. */
export type ReadingMisfit = 'tooEarly' | 'otherThanLot' | 'wrongWarmth' | 'warmthUnknown' | 'otherReader'

/**
 * Hours that a reading needs: those of its lot. Hours that are only typed make the time longer and never shorter, since
 * nothing says that they are its maker's.
 */
export function neededHours(read: Pick<IndicatorRead, 'makersHours' | 'fromLot'>, wanted: WantedIncubation): number {
  const incubation = incubationOf(read, wanted)
  return incubation?.hours ?? Math.max(wanted.hours, read.makersHours ?? 0)
}

/** The warmth that a reading needs, °C. */
export function neededWarmth(
  read: Pick<IndicatorRead, 'fromLot'>,
  wanted: WantedIncubation,
): { readonly from: number; readonly to: number } {
  return incubationOf(read, wanted)?.temperatureC ?? { from: wanted.fromC, to: wanted.toC }
}

/** Undefined when it was incubated as its lot, or else its method, asks. */
export function readingMisfit(read: IndicatorRead, wanted: WantedIncubation): ReadingMisfit | undefined {
  const incubation = incubationOf(read, wanted)
  if (!atLeast(read.incubatedHours, neededHours(read, wanted))) return 'tooEarly'
  if (incubation !== null && read.makersHours !== undefined && read.makersHours !== incubation.hours) {
    return 'otherThanLot'
  }
  const warmth = neededWarmth(read, wanted)
  if (read.incubatorC !== undefined && !(atLeast(read.incubatorC, warmth.from) && atMost(read.incubatorC, warmth.to))) {
    return 'wrongWarmth'
  }
  if (incubation === null) return undefined
  if (incubation.reader !== undefined && !isSame(incubation.reader, read.reader)) return 'otherReader'
  // A reader keeps its own warmth; an incubator is looked at.
  const isLookedAt = incubation.temperatureC === undefined || incubation.reader !== undefined
  return isLookedAt || read.incubatorC !== undefined ? undefined : 'warmthUnknown'
}

function incubationOf({ fromLot }: Pick<IndicatorRead, 'fromLot'>, { lotOf }: WantedIncubation) {
  return (fromLot === undefined ? undefined : lotOf(fromLot)?.incubation) ?? null
}

function isSame(wanted: string, named: string | undefined): boolean {
  return named !== undefined && named.trim().toLowerCase() === wanted.trim().toLowerCase()
}

/** The lots whose incubation the readings of these loads hang on. */
export function lotsOfReadings(
  loads: readonly { readonly biological: readonly Pick<IndicatorRead, 'fromLot'>[] }[],
): readonly SubjectId<'lot'>[] {
  return [...new Set(loads.flatMap((load) => load.biological.flatMap((read) => read.fromLot ?? [])))]
}
