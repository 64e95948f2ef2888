import type { Policy } from '../policy.ts'
import { type LotOfIndicator, noLotKnown } from '../sterilising/incubation.ts'
import type { MachineKnown } from '../sterilising/machine-fold.ts'
import { methodOf } from '../sterilising/method-of.ts'
import { wantedIncubation } from '../sterilising/wanted-incubation.ts'
import { goodResultPerProgram, recallFailedLoadAlways, recallOnSinglePositive, repeatsNeeded } from './limits.ts'
import type { RecallChoices } from './recall-window.ts'

/** What the policy chooses for loads of this machine; a machine that is not known is judged like steam. */
export function choicesOf(
  policy: Policy,
  machine: Pick<MachineKnown, 'type'> | undefined,
  lotOf: LotOfIndicator = noLotKnown,
): RecallChoices {
  return {
    onSinglePositive: policy.limit(recallOnSinglePositive).value,
    failedLoadAlways: policy.limit(recallFailedLoadAlways).value,
    perProgram: policy.limit(goodResultPerProgram).value,
    repeatsNeeded: policy.limit(repeatsNeeded).value,
    incubation: wantedIncubation(machine, policy, lotOf),
    oneFailureIsEnough: machine !== undefined && (methodOf(machine) ?? 'steam') !== 'steam',
  }
}
