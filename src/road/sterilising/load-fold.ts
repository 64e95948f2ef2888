import type { Bodies } from '../kinds.ts'
import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import { evolveGas, type LoadGas, mustAerateAgain, noGas } from '../gases/load-gas.ts'
import type { LoadPurpose } from './entries.ts'
import { readingMisfit, type WantedIncubation } from './incubation.ts'

export interface LoadKnown {
  readonly id: SubjectId<'load'>
  readonly machine: SubjectId<'machine'> | null
  readonly program: string
  readonly purpose: LoadPurpose
  readonly rounds: readonly SubjectId<'round'>[]
  readonly builtAt: Instant | null
  readonly challenge: Bodies['load-built']['challenge'] | null
  readonly cycle: Step<Omit<Bodies['cycle-logged'], 'load'>> | null
  readonly chemical: readonly Step<Omit<Bodies['chemical-read'], 'load'>>[]
  readonly biological: readonly Step<Omit<Bodies['biological-read'], 'load'>>[]
  readonly decision: Step<Omit<Bodies['load-decided'], 'load'>> | null
  /** What the indicator of an air-removal test showed: with it such a load is done. Absent from what older versions folded. */
  readonly airRemoval?: Step<Pick<Bodies['air-removal-tested'], 'result'>>
  /** What only some methods have: cancellation, aeration, residues. */
  readonly gas: LoadGas
}

/**
 * What the biological indicators of a load say together. Growth fails whatever the control did and however early it was
 * read. No growth counts only after the whole incubation that its lot asks for and, in the same reading, beside a control
 * of the same lot that grew; else it is invalid.
 */
export type BiologicalOutcome = 'notRead' | 'negative' | 'positive' | 'invalid'

type Read = Pick<LoadKnown, 'biological'>

export function biologicalOutcome(load: Read, wanted: WantedIncubation): BiologicalOutcome {
  if (!isRead(load)) return 'notRead'
  if (hasGrown(load)) return 'positive'
  const proven = load.biological.some(
    (read) =>
      readingMisfit(read, wanted) === undefined && read.control?.result === 'growth' && read.control.lot === read.lot,
  )
  return proven ? 'negative' : 'invalid'
}

/** Whether no growth was read, and last before its time, so that the same indicator is to be read again. */
export function isReadTooEarly(load: Read, wanted: WantedIncubation): boolean {
  if (!isRead(load) || hasGrown(load)) return false
  const misfits = load.biological.map((read) => readingMisfit(read, wanted))
  return misfits.every((misfit) => misfit !== undefined) && misfits.at(-1) === 'tooEarly'
}

/** Whether the result of an indicator is still to come: nobody read it, or only before its time. */
export function isResultAwaited(load: Read, wanted: WantedIncubation): boolean {
  return !isRead(load) || isReadTooEarly(load, wanted)
}

/** Whether an indicator of the load grew: that needs neither a control nor a time. */
export function hasGrown(load: Read): boolean {
  return load.biological.some((read) => read.result === 'growth')
}

/** Whether an indicator of the load was read at all, whatever that proves. */
export function isRead(load: Read): boolean {
  return load.biological.length > 0
}

/** When the cycle of a load was over; until it is logged, when the load was built. */
export function loadTime(load: {
  readonly cycle: { readonly endedAt: Instant } | null
  readonly builtAt: Instant | null
}): Instant | null {
  return load.cycle?.endedAt ?? load.builtAt
}

export const loadStandings = [
  'built',
  'run',
  'testPassed',
  'testFailed',
  'aerating',
  'aerationStopped',
  'cancelled',
  'quarantined',
  'released',
  'rejected',
  'failed',
] as const
export type LoadStanding = (typeof loadStandings)[number]

export function loadStanding(load: LoadKnown): LoadStanding {
  if (hasGrown(load)) return 'failed'
  if (load.decision !== null) {
    const outcomes = load.decision.packs.map((pack) => pack.outcome)
    if (outcomes.includes('quarantined')) return 'quarantined'
    return outcomes.includes('released') ? 'released' : 'rejected'
  }
  if (load.gas.cancelled !== null) return 'cancelled'
  if (load.gas.aeration !== null && load.gas.aerated === null) return 'aerating'
  if (mustAerateAgain(load.gas)) return 'aerationStopped'
  // Nothing in it is decided pack by pack: once its result is on record it is done, unless a biological one is to come.
  const isAwaited = load.challenge?.biologicalLot !== undefined && !isRead(load)
  if (load.airRemoval !== undefined && !isAwaited)
    return load.airRemoval.result === 'passed' ? 'testPassed' : 'testFailed'
  return load.cycle === null ? 'built' : 'run'
}

export const loadFold: Fold<'load', LoadKnown> = {
  subject: 'load',
  begin: (id) => ({
    id,
    machine: null,
    program: '',
    purpose: 'goods',
    rounds: [],
    builtAt: null,
    challenge: null,
    cycle: null,
    chemical: [],
    biological: [],
    decision: null,
    gas: noGas,
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'load-built':
        return {
          ...state,
          machine: entry.body.machine,
          program: entry.body.program,
          purpose: entry.body.purpose,
          rounds: entry.body.rounds,
          builtAt: entry.happenedAt,
          challenge: entry.body.challenge ?? null,
        }
      case 'cycle-logged': {
        const { load: _, ...cycle } = entry.body
        return { ...state, cycle: step(cycle) }
      }
      case 'chemical-read': {
        const { load: _, ...read } = entry.body
        return { ...state, chemical: [...state.chemical, step(read)] }
      }
      case 'biological-read': {
        const { load: _, ...read } = entry.body
        return { ...state, biological: [...state.biological, step(read)] }
      }
      case 'load-decided': {
        const { load: _, ...decision } = entry.body
        return { ...state, decision: step(mergeDecision(state.decision, decision)) }
      }
      case 'air-removal-tested':
        return { ...state, airRemoval: step({ result: entry.body.result }) }
      default:
        return { ...state, gas: evolveGas(state.gas, entry) }
    }
  },
  takeBack(state, entry, instead) {
    if (entry.kind !== 'load-decided' || state.decision === null || state.decision.entry === instead) return state
    const named = new Set(entry.body.packs.map((pack) => pack.round))
    const packs = state.decision.packs.filter((pack) => !named.has(pack.round))
    return { ...state, decision: packs.length === 0 ? null : { ...state.decision, packs } }
  },
  standing: loadStanding,
}

/** A later decision may be about some packs only; the others keep what was decided of them before. */
function mergeDecision(
  before: LoadKnown['decision'],
  now: Omit<Bodies['load-decided'], 'load'>,
): Omit<Bodies['load-decided'], 'load'> {
  if (before === null) return now
  const decided = new Set(now.packs.map((pack) => pack.round))
  return { ...now, packs: [...before.packs.filter((pack) => !decided.has(pack.round)), ...now.packs] }
}
