import type { Facts } from '../../facts.ts'
import type { Finding } from '../../finding.ts'
import type { TypedSent } from '../../kinds.ts'
import { packName } from '../../naming.ts'
import type { AnyRule } from '../../rule.ts'
import { defineRule } from '../../rule.ts'
import { releaseAerated } from '../../gases/rules/release-aerated.ts'
import { releaseNotCancelled } from '../../gases/rules/release-not-cancelled.ts'
import { releasePacksFitMethod } from '../../gases/rules/release-packs-fit-method.ts'
import { releaseResidues } from '../../gases/rules/release-residues.ts'
import type { LoadKnown } from '../../sterilising/load-fold.ts'
import { goodsAfterProof } from '../../sterilising/rules/goods-after-proof.ts'
import { releaseAfterAirRemovalTest } from '../../sterilising/rules/release-after-air-removal-test.ts'
import { releaseBiologicalValid } from '../../sterilising/rules/release-biological-valid.ts'
import { releaseChallengeDevice } from '../../sterilising/rules/release-challenge-device.ts'
import { releaseCycleMet } from '../../sterilising/rules/release-cycle-met.ts'
import { releaseFromWorkingMachine } from '../../sterilising/rules/release-from-working-machine.ts'
import { releaseGoods } from '../../sterilising/rules/release-goods.ts'
import { releaseImplantWaits } from '../../sterilising/rules/release-implant-waits.ts'
import { releaseInsideIndicators } from '../../sterilising/rules/release-inside-indicators.ts'
import { releaseOutsideIndicators } from '../../sterilising/rules/release-outside-indicators.ts'
import { releaseWithBiological } from '../../sterilising/rules/release-with-biological.ts'
import { releaseTable } from '../../sterilising/sources.ts'
import type { SubjectId } from '../../subject.ts'

/** What a release rests on. Growth after it is the recall's: repeats may clear it. */
const proofs: readonly AnyRule[] = [
  releaseGoods,
  releaseFromWorkingMachine,
  goodsAfterProof,
  releaseCycleMet,
  releaseAfterAirRemovalTest,
  releaseOutsideIndicators,
  releaseInsideIndicators,
  releaseChallengeDevice,
  releaseBiologicalValid,
  releaseWithBiological,
  releaseImplantWaits,
  releaseNotCancelled,
  releasePacksFitMethod,
  releaseAerated,
  releaseResidues,
]

/** A release rests on its proof: a correction or a late entry may have taken that away since. */
export const releasedStillProven = defineRule({
  id: 'released-still-proven',
  says: 'A released pack goes on the shelf or to a patient only while all that released it still stands.',
  on: ['pack-stored', 'pack-opened'],
  exceptionAllowed: false,
  check(facts, entry) {
    const id = entry.body.round
    const round = facts.known(id)
    if (round?.decision?.outcome !== 'released') return []
    const load = facts.known(round.decision.load)
    const lost = load === undefined ? [] : lostProofs(facts, entry, { id, load })
    const unsealed = round.sealed === null ? [{ says: 'It is not recorded as sealed any more.' }] : []
    return [...unsealed, ...lost].map(({ says }) => ({
      weight: 'stop' as const,
      says: `${packName(facts, id)} was released, but what released it does not stand any more. Do not use it. ${says}`,
      source: releaseTable,
    }))
  },
})

/** The findings that a release of this pack would meet now. */
function lostProofs(
  facts: Facts,
  entry: TypedSent,
  { id, load }: { readonly id: SubjectId<'round'>; readonly load: LoadKnown },
): readonly Pick<Finding, 'says'>[] {
  const again: TypedSent = {
    ...entry,
    kind: 'load-decided',
    body: { load: load.id, packs: [{ round: id, outcome: 'released' }] },
  }
  const early = load.decision?.earlyImplant !== undefined
  return proofs
    .filter((rule) => !(early && rule === releaseImplantWaits))
    .flatMap((rule) => rule.check(facts, again))
    .filter((finding) => finding.weight === 'stop' || finding.weight === 'notEvaluable')
}
