import type { Facts } from '../facts.ts'
import type { Bodies } from '../kinds.ts'
import type { RoundKnown } from '../round.ts'
import type { SubjectId } from '../subject.ts'

/** A pack that a decision would release. */
export interface ReleasedPack {
  readonly id: SubjectId<'round'>
  readonly round: RoundKnown | undefined
  readonly implant: boolean
}

/** The packs that a decision would release; quarantine and rejection need no proof. */
export function releasedPacks(facts: Facts, body: Bodies['load-decided']): readonly ReleasedPack[] {
  return body.packs
    .filter((pack) => pack.outcome === 'released')
    .map(({ round: id }) => {
      const round = facts.known(id)
      return { id, round, implant: round?.sealed?.implant === true }
    })
}
