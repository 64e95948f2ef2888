import type { Facts } from '../facts.ts'
import type { Found } from '../rule.ts'
import { setOf } from '../set-content.ts'
import type { SubjectId } from '../subject.ts'
import type { DeviceKnown } from './fold.ts'
import { type Method, methodFacts } from './methods.ts'
import { makersLimits } from './route/rules/makers-limits.ts'
import { cyclesDoneBy } from './uses-of-item.ts'

/**
 * What stands against one more cycle by this method, by the count of cycles alone: the programme has rules of its own.
 * Nothing stands while the items of the device are not counted.
 */
export function cyclesAgainstMaker(
  facts: Facts,
  round: SubjectId<'round'>,
  { device, method }: { readonly device: DeviceKnown; readonly method: Method },
): readonly Found[] {
  const makerMethods = device.makerMethods?.map(({ method: each, maxCycles }) => ({ method: each, maxCycles }))
  const set = setOf(facts, round)
  const items = (set?.items ?? []).map((item) => facts.known(item))
  const cyclesDone = set === undefined ? undefined : cyclesDoneBy(set, device.id, items)
  if (makerMethods === undefined || cyclesDone === undefined) return []
  const offer = { method, owned: true }
  const ask = { toStore: true, hldForLaparoscope: false, offers: [offer], cyclesDone }
  return makersLimits.check({
    device: { ...device, makerMethods },
    ask,
    offer,
    facts: methodFacts[method],
    contact: device.contact,
  })
}
