import { unitPolicy } from '#road/gather.ts'
import { policyFrom } from '#road/policy.ts'
import { lotsOfReadings, type WantedIncubation } from '#road/sterilising/incubation.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { wantedIncubation } from '#road/sterilising/wanted-incubation.ts'
import type { Reader } from '#journal/journal.ts'

/** What no growth needs to count in each of these loads: by the method of its machine, the limits of the unit and the lots. */
export async function incubationOfLoads(
  reader: Pick<Reader, 'known'>,
  loads: readonly Pick<LoadKnown, 'machine' | 'biological'>[],
): Promise<(load: Pick<LoadKnown, 'machine'>) => WantedIncubation> {
  const [machines, lots, policies] = await Promise.all([
    reader.known([...new Set(loads.flatMap(({ machine }) => machine ?? []))]),
    reader.known(lotsOfReadings(loads)),
    reader.known([unitPolicy]),
  ])
  const policy = policyFrom(policies.get(unitPolicy))
  return ({ machine }) =>
    wantedIncubation(machine === null ? undefined : machines.get(machine), policy, (lot) => lots.get(lot))
}
