import type { Policy } from '../policy.ts'
import { biologicalIndicators } from './biological-indicators.ts'
import type { LotOfIndicator, WantedIncubation } from './incubation.ts'
import type { MachineKnown } from './machine-fold.ts'
import { methodOf } from './method-of.ts'

/**
 * What no growth needs to count in a load of this machine: by its method, and by the lot of each indicator. A machine that
 * is not known is judged like steam.
 */
export function wantedIncubation(
  machine: Pick<MachineKnown, 'type'> | undefined,
  policy: Policy,
  lotOf: LotOfIndicator,
): WantedIncubation {
  const method = machine === undefined ? undefined : methodOf(machine)
  const { hours, fromC, toC } = biologicalIndicators[method ?? 'steam']
  const [from, to] = [policy.limit(fromC).value, policy.limit(toC).value]
  return { hours: policy.limit(hours).value, fromC: from, toC: to, lotOf }
}
