import { eventsOfBath } from '../baths/events-of-bath.ts'
import { isFromBath } from '../baths/from-bath.ts'
import { usesInDoubt } from '../baths/in-doubt.ts'
import { bathProposal } from '../baths/sources.ts'
import type { Look } from '../look.ts'
import type { Policy } from '../policy.ts'
import { roundStanding } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import type { RecallKnown } from './fold.ts'
import type { RecallExtent, RecalledPack } from './recall-extent.ts'

/**
 * What the recall of a bath reaches: the immersions that no passed strip speaks for, or all of them when the bath
 * itself was at fault. Worked out from the record as it is now; what was sterilised in a load since is not in it.
 */
export async function bathExtent(
  look: Look,
  recall: RecallKnown,
  id: SubjectId<'bath'>,
  policy: Policy,
): Promise<RecallExtent | undefined> {
  const bath = (await look.known([id])).get(id)
  if (bath === undefined || recall.opened === null) return undefined
  const lots = await look.known([...new Set(bath.strips.map((strip) => strip.lot))])
  const whole = recall.opened.defectProven
  const doubted = new Set(
    whole ? bath.uses.map((use) => use.immersion) : usesInDoubt(eventsOfBath(bath, policy, (lot) => lots.get(lot))),
  )
  const because = whole
    ? 'The bath itself was at fault: everything that was in it counts.'
    : doubted.size === 0
      ? 'A passed strip speaks for everything that was in this bath.'
      : 'No passed strip speaks for what was immersed since the last pass.'
  const immersions = await look.known([...doubted])
  const rounds = await look.known([...immersions.values()].flatMap((immersion) => immersion.rounds))
  const packs = [...immersions.values()].flatMap((immersion) =>
    immersion.rounds.flatMap((each): readonly RecalledPack[] => {
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
    }),
  )
  return {
    recall,
    standing: recall.closed === null ? 'open' : 'closed',
    failed: id,
    machine: null,
    lastGood: bath.uses.findLast((use) => !doubted.has(use.immersion))?.immersion ?? null,
    verdict: 'everything',
    because,
    repeats: { good: 0, needed: 0 },
    coveredBy: null,
    loads: bath.uses
      .filter((use) => doubted.has(use.immersion))
      .map((use) => ({ load: use.immersion, at: use.at, duty: 'recall', why: because, source: bathProposal })),
    packs,
  }
}
