import type { Bodies } from './kinds.ts'
import type { EntryId } from './entry.ts'
import type { Fold } from './fold.ts'
import type { Instant } from './instant.ts'
import type { RecallOutcome } from './tracing/entries.ts'
import type { SubjectId } from './subject.ts'

/*
 * A round is one trip of one set round the loop. It is read by every stage, so it stands
 * above them; each stage's entries add their part to it.
 */

/** What a stage recorded of a round, when, and in which entry. */
export type Step<Body> = Body & { readonly at: Instant; readonly entry: EntryId; readonly by: SubjectId<'person'> }

export interface RoundKnown {
  readonly id: SubjectId<'round'>
  readonly set: SubjectId<'set'> | null
  readonly began: Step<{
    readonly because: 'use' | Bodies['reprocessing-started']['because']
    readonly case: SubjectId<'case'> | null
  }> | null
  readonly previous: SubjectId<'round'> | null
  readonly soak: Step<{ readonly solution: string; readonly waterC: number | null }> | null
  readonly wash: Step<{ readonly id: SubjectId<'wash'>; readonly how: Bodies['wash-recorded']['how'] }> | null
  readonly inspection: Step<Omit<Bodies['inspected'], 'round'>> | null
  /** Tests of what was left on it since its last wash. */
  readonly cleaningTests: readonly Step<Omit<Bodies['cleaning-tested'], 'round'>>[]
  /** The last bath that it was treated in since its wash, and what was decided of it. */
  readonly immersion: Step<{
    readonly id: SubjectId<'immersion'>
    readonly claim: Bodies['immersion-started']['claim']
    readonly decided: Step<{ readonly outcome: Bodies['immersion-decided']['outcome'] }> | null
  }> | null
  readonly sealed: Step<Omit<Bodies['pack-sealed'], 'round'>> | null
  readonly load: Step<{ readonly id: SubjectId<'load'> }> | null
  readonly decision: Step<{
    readonly load: SubjectId<'load'>
    readonly outcome: 'released' | 'quarantined' | 'rejected'
    readonly why: string | null
  }> | null
  readonly stored: Step<{ readonly place: string }> | null
  /** The worst thing seen on the pack since it was sealed: it is not taken back by a later 'intact'. */
  readonly damage: Step<{ readonly condition: Exclude<Bodies['pack-condition-noted']['condition'], 'intact'> }> | null
  /** Indicators that did not turn or are missing, each with the load that it went through. */
  readonly failedIndicators: readonly Step<{
    readonly load: SubjectId<'load'>
    readonly where: Bodies['chemical-read']['where']
  }>[]
  readonly opened: Step<Omit<Bodies['pack-opened'], 'round'>> | null
  readonly accounted: readonly Step<{
    readonly recall: SubjectId<'recall'>
    readonly outcome: RecallOutcome
  }>[]
  /** The round that this set went on next: this one is over. */
  readonly next: SubjectId<'round'> | null
}

/** Where a round is now, in the order of the loop. */
export const roundStandings = [
  'used',
  'soaking',
  'washed',
  'inspected',
  'sentBack',
  'inBath',
  'bathReady',
  'sealed',
  'inLoad',
  'quarantined',
  'rejected',
  'released',
  'onShelf',
  'damaged',
  'opened',
  'over',
] as const
export type RoundStanding = (typeof roundStandings)[number]

/** Whether an inspection lets the set go on to be packed. */
export function inspectionPassed(inspection: Omit<Bodies['inspected'], 'round'>): boolean {
  return (
    inspection.cleanliness === 'clean' &&
    inspection.function === 'works' &&
    inspection.dry &&
    inspection.insulation !== 'failed' &&
    (inspection.next ?? 'pack') === 'pack'
  )
}

const backOutcomes: ReadonlySet<RecallOutcome> = new Set([
  'pulledFromShelf',
  'stoppedBeforeUse',
  'discarded',
  'alreadyReprocessed',
])

/** What was recorded last of this pack in each recall, and when. */
export function lastOutcomes(round: Pick<RoundKnown, 'accounted'>): RoundKnown['accounted'] {
  return [...new Map(round.accounted.map((each) => [each.recall, each])).values()]
}

export function tookBack({ outcome }: { readonly outcome: RecallOutcome }): boolean {
  return backOutcomes.has(outcome)
}

/** The recalls that took this pack back, by what was accounted last for each, and when. */
export function takenBackBy(
  round: Pick<RoundKnown, 'accounted'>,
): readonly { readonly recall: SubjectId<'recall'>; readonly at: Instant }[] {
  return lastOutcomes(round).filter(tookBack)
}

/** The recalls that took a pack back after it was released, or found ready from a bath: their end does not make it fit for use. */
export function takenBackSinceRelease(
  round: Pick<RoundKnown, 'accounted' | 'decision' | 'immersion' | 'load'>,
): readonly SubjectId<'recall'>[] {
  const since = releasedAt(round)
  return since === null ? [] : takenBackBy(round).flatMap(({ recall, at }) => (at >= since ? [recall] : []))
}

/** Whether a set that was ready from a bath was taken back by a recall: no load holds it, and nothing but a new round is left to it. */
export function takenBackFromBath(round: RoundKnown): boolean {
  return round.load === null && roundStanding(round) === 'quarantined'
}

function releasedAt({
  decision,
  immersion,
  load,
}: Pick<RoundKnown, 'decision' | 'immersion' | 'load'>): Instant | null {
  if (load !== null || decision !== null) return decision?.outcome === 'released' ? decision.at : null
  const decided = immersion?.decided ?? null
  return decided?.outcome === 'readyForUse' ? decided.at : null
}

export function roundStanding(round: RoundKnown): RoundStanding {
  if (round.next !== null) return 'over'
  if (round.opened !== null) return 'opened'
  if (round.sealed !== null && round.damage !== null) return 'damaged'
  if (round.decision !== null) {
    if (round.decision.outcome !== 'released') return round.decision.outcome
    // An indicator read after the release, or corrected, speaks against it: the pack waits to be decided anew.
    if (round.failedIndicators.some((failed) => failed.load === round.decision?.load)) return 'quarantined'
    if (takenBackSinceRelease(round).length > 0) return 'quarantined'
    return round.stored === null ? 'released' : 'onShelf'
  }
  if (round.load !== null) return 'inLoad'
  if (round.sealed !== null) return 'sealed'
  if (round.immersion !== null && round.immersion.decided === null) return 'inBath'
  if (round.immersion?.decided?.outcome === 'readyForUse')
    return takenBackSinceRelease(round).length > 0 ? 'quarantined' : 'bathReady'
  if (round.inspection !== null) return inspectionPassed(round.inspection) ? 'inspected' : 'sentBack'
  if (round.wash !== null) return 'washed'
  if (round.soak !== null) return 'soaking'
  return 'used'
}

export const roundFold: Fold<'round', RoundKnown> = {
  subject: 'round',
  begin: (id) => ({
    id,
    set: null,
    began: null,
    previous: null,
    soak: null,
    wash: null,
    inspection: null,
    cleaningTests: [],
    immersion: null,
    sealed: null,
    load: null,
    decision: null,
    stored: null,
    damage: null,
    failedIndicators: [],
    opened: null,
    accounted: [],
    next: null,
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'use-ended':
        if (entry.body.round !== state.id) return { ...state, next: entry.body.round }
        return {
          ...state,
          set: entry.body.set,
          began: step({ because: 'use' as const, case: entry.body.case ?? null }),
          previous: entry.body.previousRound ?? null,
        }
      case 'reprocessing-started':
        if (entry.body.round !== state.id) return { ...state, next: entry.body.round }
        return {
          ...state,
          set: entry.body.set,
          began: step({ because: entry.body.because, case: null }),
          previous: entry.body.previousRound ?? null,
        }
      case 'soak-started':
        return { ...state, soak: step({ solution: entry.body.solution, waterC: entry.body.waterC ?? null }) }
      case 'wash-recorded':
        // A set that goes back to the wash is to be looked at again, and whatever pack it was in is none any more.
        return {
          ...state,
          wash: step({ id: entry.body.wash, how: entry.body.how }),
          inspection: null,
          sealed: null,
          decision: null,
          stored: null,
          immersion: null,
          cleaningTests: [],
        }
      case 'inspected': {
        const { round: _, ...seen } = entry.body
        return { ...state, inspection: step(seen) }
      }
      case 'immersion-started':
        return { ...state, immersion: step({ id: entry.body.immersion, claim: entry.body.claim, decided: null }) }
      case 'immersion-decided':
        // What went into another bath since is decided there.
        if (state.immersion?.id !== entry.body.immersion) return state
        return {
          ...state,
          immersion: { ...state.immersion, decided: step({ outcome: entry.body.outcome }) },
        }
      case 'cleaning-tested': {
        const { round: _, ...tested } = entry.body
        return { ...state, cleaningTests: [...state.cleaningTests, step(tested)] }
      }
      case 'pack-sealed': {
        const { round: _, ...pack } = entry.body
        return { ...state, sealed: step(pack) }
      }
      case 'load-built':
        // A load that is run again is decided again.
        return { ...state, load: step({ id: entry.body.load }), decision: null }
      case 'load-decided': {
        const pack = entry.body.packs.find((each) => each.round === state.id)
        // A pack that went into another load since is proven, or not, by that one.
        if (pack === undefined || state.load?.id !== entry.body.load) return state
        return {
          ...state,
          decision: step({ load: entry.body.load, outcome: pack.outcome, why: pack.why ?? null }),
        }
      }
      case 'chemical-read':
        if (entry.body.result === 'passed') return state
        return {
          ...state,
          failedIndicators: [...state.failedIndicators, step({ load: entry.body.load, where: entry.body.where })],
        }
      case 'pack-stored':
        return { ...state, stored: step({ place: entry.body.place }) }
      case 'pack-condition-noted':
        if (entry.body.condition === 'intact') return state
        return { ...state, damage: step({ condition: entry.body.condition }) }
      case 'pack-opened': {
        const { round: _, ...seen } = entry.body
        return { ...state, opened: step(seen) }
      }
      case 'recall-accounted':
        return {
          ...state,
          accounted: [...state.accounted, step({ recall: entry.body.recall, outcome: entry.body.outcome })],
        }
      default:
        return state
    }
  },
  takeBack(state, entry, instead) {
    // The decision that this one had replaced was not judged anew: there is none until somebody decides again.
    if (entry.kind === 'immersion-decided') {
      const { immersion } = state
      if (immersion?.id !== entry.body.immersion || immersion.decided?.entry === instead) return state
      return { ...state, immersion: { ...immersion, decided: null } }
    }
    if (entry.kind !== 'load-decided' || state.load?.id !== entry.body.load) return state
    const named = entry.body.packs.some((each) => each.round === state.id)
    return named && state.decision?.entry !== instead ? { ...state, decision: null } : state
  },
  standing: roundStanding,
}
