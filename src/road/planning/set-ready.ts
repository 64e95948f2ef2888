import type { PlanInstance } from '#workings/planning/instance.ts'
import { aerationHours } from '../gases/aeration.ts'
import { type Instant, instant, millis } from '../instant.ts'
import { type RoundKnown, roundStanding, takenBackFromBath } from '../round.ts'
import type { SetKnown } from '../catalogue/fold.ts'
import { isRead } from '../sterilising/load-fold.ts'
import { biologicalIndicators } from '../sterilising/biological-indicators.ts'
import { methodOf } from '../sterilising/method-of.ts'
import { subjectKey } from '../subject.ts'
import type { DayClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { walkToUse } from './walk-line.ts'

/** When a set is sterile, by where it is now; or why it cannot be counted on. */
export type SetReady =
  | { readonly kind: 'at'; readonly minute: number; readonly says: string }
  | { readonly kind: 'out'; readonly says: string }

export interface SetOnLine {
  readonly set: SetKnown
  readonly steps: PlanInstance['routes'][string]
  /** Minutes for which it keeps after them; null for what may be stored. */
  readonly keeps: number | null
  readonly pools: readonly PlanInstance['pools'][number][]
  readonly clock: DayClock
}

type Facts = Pick<DayFacts, 'now' | 'policy' | 'rounds' | 'loads' | 'doubts' | 'machines' | 'items' | 'cases'>

/** Where a set is in its round, turned into the minute of the planned day at which it is ready; the line without queues. */
export function setReady(facts: Facts, on: SetOnLine): SetReady {
  const { set, clock } = on
  const away = set.items
    .map((id) => facts.items.find((item) => item.id === id))
    .find((item) => item?.out !== null && item !== undefined)
  if (away !== undefined) return out(`a piece is out for repair: ${away.out?.what ?? subjectKey(away.id)}`)
  const round = facts.rounds.find((each) => each.id === set.round?.id)
  const now = clock.minuteOf(facts.now)
  if (round === undefined) return through(on, 'soak', now, 'never sterilised here')
  const doubt = facts.doubts.get(round.id)?.[0]
  if (doubt !== undefined) return out(`in doubt: ${doubt.says}`)
  return byStanding(facts, on, round, now)
}

function byStanding(facts: Facts, on: SetOnLine, round: RoundKnown, now: number): SetReady {
  const since = (at: Instant | undefined, plus = 0): number =>
    at === undefined ? now : Math.max(now, on.clock.minuteOf(at) + plus)
  const standing = roundStanding(round)
  switch (standing) {
    case 'onShelf':
      return { kind: 'at', minute: now, says: 'on the shelf' }
    case 'released':
      return through(on, 'cool and store', on.clock.minuteOf(round.decision?.at ?? facts.now), 'released, to be stored')
    case 'used':
    case 'over':
      return through(on, 'soak', now, 'used, waits for its soak')
    case 'soaking':
      return { ...through(on, 'take apart', since(round.soak?.at, on.steps[0]?.dur ?? 0), 'in the soak') }
    case 'washed':
      return through(on, 'inspect and pack', now, 'washed, to be inspected')
    case 'inspected':
      return through(on, 'inspect and pack', now, 'inspected, to be packed')
    case 'sentBack':
      return (round.inspection?.next ?? 'washAgain') === 'washAgain'
        ? through(on, 'take apart', now, 'sent back to the wash')
        : out('kept back at its inspection')
    case 'inBath':
    case 'bathReady':
      return through(on, 'sterilise', now, 'from a bath: it keeps nothing and is treated again')
    case 'sealed':
      return through(on, 'sterilise', now, 'packed, waits for a load')
    case 'inLoad':
    case 'quarantined':
      if (takenBackFromBath(round)) return out('it was taken back by a recall: start its reprocessing')
      return inLoad(facts, on, round, standing)
    case 'rejected':
      return out('its load was rejected: start its reprocessing')
    case 'damaged':
      return out(`its pack is ${round.damage?.condition ?? 'damaged'}: start its reprocessing`)
    case 'opened':
      return through(on, 'soak', since(endOf(facts, round)), 'open in a case')
  }
}

/** A set in a chamber, in aeration, or held until an indicator is read. */
function inLoad(facts: Facts, on: SetOnLine, round: RoundKnown, standing: 'inLoad' | 'quarantined'): SetReady {
  const now = on.clock.minuteOf(facts.now)
  const load = facts.loads.find((each) => each.id === round.load?.id)
  if (load === undefined) return through(on, 'sterilise', now, 'in a load that is not known')
  const machine = facts.machines.find((each) => each.id === load.machine)
  const ended = load.cycle?.endedAt ?? null
  const { aeration, aerated } = load.gas
  if (standing === 'inLoad' && aeration !== null && aerated === null) {
    const hours = aerationHours(aeration.setC, facts.policy, aeration.makerHours)
    if (hours === null) return out('in an aeration that is too cold for every listed time')
    const until = instant(millis(aeration.at) + hours * 3_600_000)
    return through(on, 'cool and store', Math.max(now, on.clock.minuteOf(until)), 'in aeration')
  }
  if (standing === 'inLoad') {
    if (ended === null) return through(on, 'sterilise', on.clock.minuteOf(load.builtAt ?? facts.now), 'in a load')
    return through(on, 'cool and store', Math.max(now, on.clock.minuteOf(ended)), 'run, to be released')
  }
  const waits = load.challenge?.biologicalLot !== undefined && !isRead(load)
  if (!waits) return out(`in quarantine${round.decision?.why ? `: ${round.decision.why}` : ''}`)
  const method = machine === undefined ? undefined : methodOf(machine)
  const hours = facts.policy.limit(biologicalIndicators[method ?? 'steam'].hours).value
  const due = instant(millis(ended ?? load.builtAt ?? facts.now) + hours * 3_600_000)
  return {
    kind: 'at',
    minute: Math.max(now, on.clock.minuteOf(due)),
    says: 'in quarantine until its indicator is read',
  }
}

function endOf({ cases }: Facts, round: RoundKnown): Instant | undefined {
  return cases.find((each) => each.id === round.opened?.case)?.planned?.endsAt
}

/** From a step of its way on; the wash begins where the first step after the soak is. */
function through({ steps, pools, keeps }: SetOnLine, from: string, at: number, says: string): SetReady {
  // A bath stands where others have a steriliser, and nothing is packed before it.
  const same = from === 'sterilise' ? 'immerse' : from === 'inspect and pack' ? 'inspect' : from
  const named = steps.findIndex(({ name }) => name === from || name === same)
  const first = named < 0 ? Math.min(1, steps.length) : named
  const minute = walkToUse({ steps: steps.slice(first), keeps }, pools, at)
  return Number.isFinite(minute)
    ? { kind: 'at', minute, says }
    : out(`${says}, and it never fits into the hours of the line`)
}

function out(says: string): SetReady {
  return { kind: 'out', says }
}
