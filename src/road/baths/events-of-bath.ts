import { type LotKnown, lotIsBad } from '../consumables/lot-fold.ts'
import type { Policy } from '../policy.ts'
import type { SubjectId } from '../subject.ts'
import type { BathKnown } from './bath-fold.ts'
import { type StripResult, isStripPass } from './bath-use.ts'
import type { BathEvent } from './in-doubt.ts'
import { bathProduct } from './products.ts'

/**
 * What happened to a bath, for the question which uses a failure puts in doubt. A strip from a bottle that was found
 * bad passes nothing, so that a bad bottle brings back what it let through.
 */
export function eventsOfBath(
  bath: BathKnown,
  policy: Policy,
  lotOf: (lot: SubjectId<'lot'>) => LotKnown | undefined,
): readonly BathEvent<SubjectId<'immersion'>>[] {
  const product = bath.product === null ? undefined : bathProduct(bath.product)
  const passed = (lot: SubjectId<'lot'>, result: StripResult): boolean | null => {
    if (product === undefined) return null
    const strong = isStripPass(result, product, policy)
    const bottle = lotOf(lot)
    return strong === true && bottle !== undefined && lotIsBad(bottle) ? null : strong
  }
  return [
    ...bath.strips.map(({ at, lot, result }) => ({ kind: 'strip' as const, at, passed: passed(lot, result) })),
    ...bath.toppedUp.map((at) => ({ kind: 'toppedUp' as const, at })),
    ...bath.uses.map(({ at, immersion, strip }) => ({
      kind: 'use' as const,
      at,
      use: immersion,
      ownStripPassed: strip !== null && passed(strip.lot, strip.result) === true,
    })),
  ]
}
