import type { EntryId, SiteId } from '../entry.ts'
import type { Facts } from '../facts.ts'
import type { Instant } from '../instant.ts'
import type { TypedSent } from '../kinds.ts'
import type { Look } from '../look.ts'
import { openedUnderNoRecall } from '../operating/rules/opened-under-no-recall.ts'
import type { RoundKnown } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import { factsOfWaiting } from './facts-of-waiting.ts'
import { releasedStillProven } from './rules/released-still-proven.ts'

/** Why a pack that was released, or a set that came ready from a bath, is not to be used as things stand. */
export interface Doubt {
  readonly rule: string
  readonly says: string
}

/** The rules that would raise the alarm if the pack were opened now: what the list says and what the alarm says is one. */
const standing = [releasedStillProven, openedUnderNoRecall] as const

/**
 * The packs among these that wait for use and are in doubt, each with its reasons, by what is known now: nothing of it
 * is stored. Many packs are answered with the same few looks as one.
 */
export async function packsInDoubt(
  look: Look,
  rounds: readonly RoundKnown[],
  now: Instant,
): Promise<ReadonlyMap<SubjectId<'round'>, readonly Doubt[]>> {
  const waiting = rounds.filter(waitsForUse)
  if (waiting.length === 0) return new Map()
  const facts = await factsOfWaiting(look, waiting, now)
  return new Map(
    waiting.flatMap((round) => {
      const doubts = doubtsOf(facts, round, now)
      return doubts.length === 0 ? [] : [[round.id, doubts] as const]
    }),
  )
}

function waitsForUse(round: RoundKnown): boolean {
  if (round.next !== null || round.opened !== null) return false
  return round.decision?.outcome === 'released' || round.immersion?.decided?.outcome === 'readyForUse'
}

function doubtsOf(facts: Facts, round: RoundKnown, now: Instant): readonly Doubt[] {
  const opening: TypedSent = {
    id: '00000000-0000-7000-8000-000000000000' as EntryId,
    site: 'nobody' as SiteId,
    kind: 'pack-opened',
    happenedAt: now,
    by: 'person:nobody',
    workstation: 'nobody',
    body: {
      round: round.id,
      case: 'case:nobody',
      outsideIndicator: 'changed',
      insideIndicator: 'changed',
      condition: 'intact',
    },
  }
  return standing
    .flatMap((rule) => rule.check(facts, opening))
    .filter((finding) => finding.weight === 'stop' || finding.weight === 'notEvaluable')
    .map(({ rule, says }) => ({ rule, says }))
}
