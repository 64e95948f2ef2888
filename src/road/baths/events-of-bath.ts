import { type LotKnown, lotIsBad } from '../consumables/lot-fold.ts'
import type { Policy } from '../policy.ts'
import type { SubjectId } from '../subject.ts'
import type { BathKnown, StripKnown } from './bath-fold.ts'
import { isStripPass } from './bath-use.ts'
import type { BathEvent } from './in-doubt.ts'
import { stripReadFromSeconds, stripReadToSeconds } from './limits.ts'
import { bathProduct } from './products.ts'
import { bottleProven } from './strip-bottle.ts'

/**
 * What happened to a bath, for the question which uses a failure puts in doubt. A strip that was read at
 * the wrong time, or from a bottle that was found bad, passes nothing, so that a bad bottle brings back what it let through.
 */
export function eventsOfBath(
  bath: BathKnown,
  policy: Policy,
  lotOf: (lot: SubjectId<'lot'>) => LotKnown | undefined,
): readonly BathEvent<SubjectId<'immersion'>>[] {
  const product = bath.product === null ? undefined : bathProduct(bath.product)
  const from = policy.limit(stripReadFromSeconds).value
  const to = policy.limit(stripReadToSeconds).value
  const passed = ({ lot, result, readAfterSeconds }: Pick<StripKnown, 'lot' | 'result' | 'readAfterSeconds'>) => {
    if (product === undefined) return null
    const strong = isStripPass(result, product, policy)
    const bottle = lotOf(lot)
    const inTime = readAfterSeconds >= from && readAfterSeconds <= to
    return strong === true && (!inTime || bottle === undefined || isUnproven(bottle, policy)) ? null : strong
  }
  return [
    ...bath.strips.map((strip) => ({ kind: 'strip' as const, at: strip.at, passed: passed(strip) })),
    ...bath.toppedUp.map((at) => ({ kind: 'toppedUp' as const, at })),
    ...bath.uses.map(({ at, immersion, strip }) => ({
      kind: 'use' as const,
      at,
      use: immersion,
      ownStripPassed: strip !== null && passed(strip) === true,
    })),
  ]
}

/** Whether a bottle was found bad, or was not tried as often as the policy asks. */
function isUnproven(bottle: LotKnown, policy: Policy): boolean {
  return lotIsBad(bottle) || (bottle.controls !== null && bottleProven(bottle.controls, policy).length > 0)
}
