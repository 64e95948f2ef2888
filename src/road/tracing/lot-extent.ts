import { lotPractice } from '../consumables/sources.ts'
import type { Instant } from '../instant.ts'
import type { Look } from '../look.ts'
import type { Policy } from '../policy.ts'
import { type RoundKnown, roundStanding } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import type { RecallKnown } from './fold.ts'
import { reachOfLot } from './lot-reach.ts'
import type { RecallExtent, RecalledPack, RecallVia } from './recall-extent.ts'

/**
 * What the recall of a lot reaches: the packs sealed with it, and those whose wash, load or bath used it. Where the lot
 * was only a proof, what another proof speaks for is cleared. Worked out from the links as they are now.
 */
export async function lotExtent(
  look: Look,
  recall: RecallKnown,
  id: SubjectId<'lot'>,
  policy: Policy,
): Promise<RecallExtent | undefined> {
  const lot = (await look.known([id])).get(id)
  if (lot === undefined || recall.opened === null) return undefined
  const reached = await reachOfLot(look, lot, recall.opened.since, policy)
  const rounds = await look.known([...new Set(reached.flatMap((each) => each.rounds))])
  const packs = reached.flatMap(({ via, duty, rounds: its }): readonly RecalledPack[] =>
    its.flatMap((each) => {
      const round = rounds.get(each)
      if (round === undefined || !stillOwes(round, via)) return []
      return [packOf(round, via, duty, recall)]
    }),
  )
  const used = reached.length > 0
  const because = used
    ? 'Everything counts that this lot was used for; what another proof speaks for is cleared.'
    : 'Nothing on record was used from this lot.'
  return {
    recall,
    standing: recall.closed === null ? 'open' : 'closed',
    failed: id,
    machine: null,
    lastGood: null,
    verdict: 'everything',
    because,
    repeats: { good: 0, needed: 0 },
    coveredBy: null,
    loads: reached.flatMap(({ via, at, duty, why }) =>
      via === id ? [] : [{ load: via, at, duty, why, source: lotPractice }],
    ),
    packs: worstOfEach(packs),
  }
}

/** One place or use that a lot went into, and the packs that it touched. */
export interface LotReach {
  readonly via: RecallVia
  readonly at: Instant
  readonly duty: RecalledPack['duty']
  readonly why: string
  readonly rounds: readonly SubjectId<'round'>[]
}

/** A pack that was washed, sterilised or treated again since owes nothing to the earlier time. */
function stillOwes(round: RoundKnown, via: RecallVia): boolean {
  if (via.startsWith('load:')) return round.load?.id === via
  if (via.startsWith('wash:')) return round.wash?.id === via
  if (via.startsWith('immersion:')) return round.immersion?.id === via && round.load === null
  return true
}

function packOf(round: RoundKnown, via: RecallVia, duty: RecalledPack['duty'], recall: RecallKnown): RecalledPack {
  const place = roundStanding(round)
  const handled = place === 'opened' || place === 'over'
  return {
    round: round.id,
    set: round.set,
    load: via,
    duty,
    place,
    shelf: handled ? null : (round.stored?.place ?? null),
    case: round.opened?.case ?? null,
    outcome: recall.accounted[round.id]?.outcome ?? null,
  }
}

/** A pack that is reached on two ways is accounted for once, by the way that asks the most. */
function worstOfEach(packs: readonly RecalledPack[]): readonly RecalledPack[] {
  const chosen = new Map<SubjectId<'round'>, RecalledPack>()
  for (const pack of packs) {
    const before = chosen.get(pack.round)
    if (before === undefined || (before.duty === 'cleared' && pack.duty !== 'cleared')) chosen.set(pack.round, pack)
  }
  return [...chosen.values()]
}
