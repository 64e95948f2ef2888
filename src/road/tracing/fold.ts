import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import type { RecallOutcome } from './entries.ts'

export interface RecallKnown {
  readonly id: SubjectId<'recall'>
  readonly load: SubjectId<'load'> | null
  /** The bath, when it is a bath that is recalled. */
  readonly bath: SubjectId<'bath'> | null
  /** The lot, when it is a lot that is recalled. */
  readonly lot: SubjectId<'lot'> | null
  readonly opened: Step<{
    readonly because: 'biologicalGrowth' | 'person'
    readonly why: string
    readonly defectProven: boolean
    /** From when a fault of the machine is known to have been there. */
    readonly since: Instant | null
  }> | null
  /** Each pack accounted for, by its round. */
  readonly accounted: Readonly<
    Record<SubjectId<'round'>, Step<{ readonly outcome: RecallOutcome; readonly note: string | null }>>
  >
  readonly closed: Step<{ readonly cause: string; readonly action: string }> | null
}

export const recallFold: Fold<'recall', RecallKnown> = {
  subject: 'recall',
  begin: (id) => ({ id, load: null, bath: null, lot: null, opened: null, accounted: {}, closed: null }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'biological-read':
        return open(
          state,
          entry.body.load,
          step({
            because: 'biologicalGrowth' as const,
            why: 'Growth in the biological indicator',
            defectProven: false,
            since: null,
          }),
        )
      case 'recall-opened':
        return open(
          state,
          entry.body.load,
          step({
            because: 'person' as const,
            why: entry.body.why,
            defectProven: entry.body.defectProven,
            since: entry.body.since ?? null,
          }),
        )
      case 'bath-recalled': {
        const { bath, why, wholeBath } = entry.body
        const opened = step({ because: 'person' as const, why, defectProven: wholeBath, since: null })
        const defectProven = wholeBath || state.opened?.defectProven === true
        return { ...state, bath, opened: { ...(state.opened ?? opened), defectProven }, closed: null }
      }
      case 'lot-recalled': {
        const { lot, why, since = null } = entry.body
        const first = state.opened ?? step({ because: 'person' as const, why, defectProven: true, since })
        // A recall that was opened for all of its use stays one of all of its use.
        const from =
          state.opened === null || first.since === null || since === null ? null : earlier(first.since, since)
        return { ...state, lot, opened: { ...first, since: state.opened === null ? since : from }, closed: null }
      }
      case 'recall-accounted':
        return {
          ...state,
          accounted: {
            ...state.accounted,
            [entry.body.round]: step({ outcome: entry.body.outcome, note: entry.body.note ?? null }),
          },
        }
      case 'recall-closed':
        return { ...state, closed: step({ cause: entry.body.cause, action: entry.body.action }) }
      default:
        return state
    }
  },
  standing: recallStanding,
}

function earlier(a: Instant | null, b: Instant | null): Instant | null {
  if (a === null || b === null) return a ?? b
  return a < b ? a : b
}

/** `lifted`: what had opened it was withdrawn or corrected, so there is nothing to recall. */
export function recallStanding(recall: RecallKnown): 'open' | 'closed' | 'lifted' {
  if (recall.opened === null) return 'lifted'
  return recall.closed === null ? 'open' : 'closed'
}

/** A second failure of the same load opens nothing new, but a proven defect stays proven; what was closed is open again. */
function open(state: RecallKnown, load: SubjectId<'load'>, opened: NonNullable<RecallKnown['opened']>): RecallKnown {
  const first = state.opened ?? opened
  return {
    ...state,
    load,
    opened: {
      ...first,
      defectProven: first.defectProven || opened.defectProven,
      since: earlier(first.since, opened.since),
    },
    closed: null,
  }
}
