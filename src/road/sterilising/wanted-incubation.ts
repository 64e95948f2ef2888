import type { Policy } from '../policy.ts'
import { biologicalIndicators } from './biological-indicators.ts'
import type { MachineKnown } from './machine-fold.ts'
import { methodOf } from './method-of.ts'

/** Hours before no growth counts in a load of this machine, by its method; a machine that is not known is judged like steam. */
export function wantedIncubation(machine: Pick<MachineKnown, 'type'> | undefined, policy: Policy): number {
  const method = machine === undefined ? undefined : methodOf(machine)
  return policy.limit(biologicalIndicators[method ?? 'steam'].hours).value
}
