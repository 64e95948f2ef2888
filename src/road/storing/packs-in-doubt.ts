import { isFromBath } from '../baths/from-bath.ts'
import { treatedStillProven } from '../baths/rules/treated-still-proven.ts'
import type { EntryId, SiteId } from '../entry.ts'
import type { Facts } from '../facts.ts'
import type { Instant } from '../instant.ts'
import type { TypedSent } from '../kinds.ts'
import type { Look } from '../look.ts'
import { openedUnderNoRecall } from '../operating/rules/opened-under-no-recall.ts'
import { lastOutcomes, type RoundKnown, tookBack } from '../round.ts'
import type { AnyRule } from '../rule.ts'
import type { SubjectId } from '../subject.ts'
import { recallStanding } from '../tracing/fold.ts'
import { factsOfWaiting } from './facts-of-waiting.ts'
import { releasedStillProven } from './rules/released-still-proven.ts'

/** Why a pack that was released, or a set that came ready from a bath, is not to be used as things stand. */
export interface Doubt {
  readonly rule: string
  readonly says: string
}

/** The rules that would raise the alarm if the pack were opened now: what the list says and what the alarm says is one. */
const standing = [releasedStillProven, treatedStillProven, openedUnderNoRecall] as const

/**
 * The packs among these that wait for use and are in doubt, each with its reasons, by what is known now: nothing of it
 * is stored. A set from a bath is named also while it lies there, and once it was used, until a recall of its bath
 * accounts for it: its patient is to be told. One that a recall took back is named as taken back. Many packs are answered with the same few looks as one.
 */
export async function packsInDoubt(
  look: Look,
  rounds: readonly RoundKnown[],
  now: Instant,
): Promise<ReadonlyMap<SubjectId<'round'>, readonly Doubt[]>> {
  const waiting = rounds.filter((round) => waitsForUse(round) || liesInBath(round) || usedFromBath(round))
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

function liesInBath(round: RoundKnown): boolean {
  if (round.next !== null || round.opened !== null || !isFromBath(round)) return false
  return round.sealed === null && round.immersion?.decided === null
}

function usedFromBath(round: RoundKnown): boolean {
  return round.opened !== null && isFromBath(round)
}

/**
 * Whether a recall has settled what a bath does not prove of a set: the recall of the bath, or of a lot that went into it or
 * that its strips came from. A used one is settled once its patient is followed, another once it was taken back. Neither the
 * bath nor the lot is any better for it.
 */
function isSettledByRecall(facts: Facts, round: RoundKnown): boolean {
  if (round.immersion === null || !isFromBath(round)) return false
  const bathId = facts.known(round.immersion.id)?.bath ?? null
  const bath = bathId === null ? undefined : facts.known(bathId)
  if (bath === undefined) return false
  const lots = new Set([...bath.lots, ...bath.strips.map((strip) => strip.lot)])
  // An outcome from before settles nothing of a set that was treated anew, or opened, since.
  const since = round.opened?.at ?? round.immersion.decided?.at ?? round.immersion.at
  return lastOutcomes(round).some((each) => {
    if (each.at < since) return false
    const recall = facts.known(each.recall)
    if (recall === undefined || recallStanding(recall) === 'lifted') return false
    const isOfBath = recall.bath === bath.id || (recall.lot !== null && lots.has(recall.lot))
    return isOfBath && (round.opened === null ? tookBack(each) : each.outcome === 'patientToBeFollowed')
  })
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
  const asked: readonly AnyRule[] = waitsForUse(round) ? standing : [treatedStillProven]
  const isSettled = isSettledByRecall(facts, round)
  return asked
    .filter((rule) => !(isSettled && rule === treatedStillProven))
    .flatMap((rule) => rule.check(facts, opening))
    .filter((finding) => finding.weight === 'stop' || finding.weight === 'notEvaluable')
    .map(({ rule, says }) => ({ rule, says }))
}
