import type { BathKnown } from '../baths/bath-fold.ts'
import { eventsOfBath } from '../baths/events-of-bath.ts'
import { isFromBath } from '../baths/from-bath.ts'
import type { ImmersionKnown } from '../baths/immersion-fold.ts'
import { immersionDoubts } from '../baths/immersion-doubts.ts'
import { usesInDoubt } from '../baths/in-doubt.ts'
import { bathProposal } from '../baths/sources.ts'
import type { BathGround } from '../baths/use-from-facts.ts'
import type { KnownOf } from '../known.ts'
import type { Look } from '../look.ts'
import type { Policy } from '../policy.ts'
import { type RoundKnown, roundStanding } from '../round.ts'
import type { SubjectId, SubjectKind } from '../subject.ts'
import type { RecallKnown } from './fold.ts'
import type { RecallExtent, RecalledPack } from './recall-extent.ts'

/**
 * What the recall of a bath reaches: the immersions that no passed strip speaks for, those that were found ready
 * although the bath was too weak, too old, too cold or not known, or all of them when the bath itself was at fault.
 * Worked out from the record as it is now; what was sterilised in a load since is not in it.
 */
export async function bathExtent(
  look: Look,
  recall: RecallKnown,
  id: SubjectId<'bath'>,
  policy: Policy,
): Promise<RecallExtent | undefined> {
  const bath = (await look.known([id])).get(id)
  if (bath === undefined || recall.opened === null) return undefined
  const immersions = await look.known(bath.uses.map((use) => use.immersion))
  const ground = await groundOf(look, policy, { bath, immersions })
  const whole = recall.opened.defectProven
  const reached = whole ? new Set(bath.uses.map((use) => use.immersion)) : reachedBy(ground, bath, immersions)
  const because = whole
    ? 'The bath itself was at fault: everything that was in it counts.'
    : reached.size === 0
      ? 'A passed strip speaks for everything that was in this bath.'
      : 'No passed strip speaks for it since the last good one, or the bath was too weak, too old, too cold or not known.'
  const held = [...immersions.values()].filter((immersion) => reached.has(immersion.id))
  const rounds = await look.known(held.flatMap((immersion) => immersion.rounds))
  return {
    recall,
    standing: recall.closed === null ? 'open' : 'closed',
    failed: id,
    machine: null,
    lastGood: bath.uses.findLast((use) => !reached.has(use.immersion))?.immersion ?? null,
    verdict: 'everything',
    because,
    repeats: { good: 0, needed: 0 },
    coveredBy: null,
    loads: bath.uses
      .filter((use) => reached.has(use.immersion))
      .map((use) => ({ load: use.immersion, at: use.at, duty: 'recall', why: because, source: bathProposal })),
    packs: held.flatMap((immersion) => packsOf(recall, immersion, rounds)),
  }
}

function packsOf(
  recall: RecallKnown,
  immersion: ImmersionKnown,
  rounds: ReadonlyMap<SubjectId<'round'>, RoundKnown>,
): readonly RecalledPack[] {
  return immersion.rounds.flatMap((each): readonly RecalledPack[] => {
    const round = rounds.get(each)
    if (round === undefined || round.immersion?.id !== immersion.id || !isFromBath(round)) return []
    return [
      {
        round: round.id,
        set: round.set,
        load: immersion.id,
        duty: 'recall',
        place: roundStanding(round),
        shelf: round.stored?.place ?? null,
        case: round.opened?.case ?? null,
        outcome: recall.accounted[round.id]?.outcome ?? null,
      },
    ]
  })
}

type Immersions = ReadonlyMap<SubjectId<'immersion'>, ImmersionKnown>

/** Without a fault of the bath: what no strip speaks for, and what went to use without proof of its bath. */
function reachedBy(ground: BathGround, bath: BathKnown, immersions: Immersions): ReadonlySet<SubjectId<'immersion'>> {
  const unspoken = usesInDoubt(eventsOfBath(bath, ground.policy, (lot) => ground.known(lot)))
  const unproven = [...immersions.values()].filter(
    ({ id, decision }) => decision?.outcome === 'readyForUse' && immersionDoubts(ground, id).length > 0,
  )
  return new Set([...unspoken, ...unproven.map(({ id }) => id)])
}

async function groundOf(
  look: Look,
  policy: Policy,
  { bath, immersions }: { readonly bath: BathKnown; readonly immersions: Immersions },
): Promise<BathGround> {
  const lots = await look.known([...new Set(bath.strips.map((strip) => strip.lot))])
  const unit = await look.known(['policy:unit'])
  const known = new Map<SubjectId, KnownOf<SubjectKind>>([...lots, ...immersions, ...unit, [bath.id, bath]])
  return { policy, known: <K extends SubjectKind>(id: SubjectId<K>) => known.get(id) as KnownOf<K> | undefined }
}
