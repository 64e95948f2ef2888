import type { EntryId } from '../../entry.ts'
import type { Fold } from '../../fold.ts'
import type { Bodies } from '../../kinds.ts'
import type { Step } from '../../round.ts'
import type { SubjectId } from '../../subject.ts'
import type { InvestigationStep } from './steps.ts'

type Of<K extends keyof Bodies> = Step<Omit<Bodies[K], 'investigation'>>

export interface Hypothesis extends Of<'hypothesis-stated'> {
  /** What its test showed, as it was said last; null while nobody said it. It names the words that were tested. */
  readonly test: Of<'hypothesis-tested'> | null
}

export interface InvestigationKnown {
  readonly id: SubjectId<'investigation'>
  readonly opened: Of<'investigation-opened'> | null
  /** The days that it covers, as they were set last; null while those of the opening hold. */
  readonly window: Of<'investigation-window-set'> | null
  readonly hypotheses: readonly Hypothesis[]
  /** Every result of a test, whichever entry it names and wherever that stands in time. */
  readonly tests: readonly Of<'hypothesis-tested'>[]
  /** Entries that stated a hypothesis and were corrected, each with the one that stands for it. */
  readonly corrected: Readonly<Partial<Record<EntryId, EntryId>>>
  /** Each step as it was marked last. */
  readonly steps: Readonly<Partial<Record<InvestigationStep, Of<'investigation-step-marked'>>>>
  readonly actions: readonly Of<'action-taken'>[]
  readonly samples: readonly SubjectId<'sample'>[]
  readonly closed: Of<'investigation-closed'> | null
}

export const investigationFold: Fold<'investigation', InvestigationKnown> = {
  subject: 'investigation',
  begin: (id) => ({
    id,
    opened: null,
    window: null,
    hypotheses: [],
    tests: [],
    corrected: {},
    steps: {},
    actions: [],
    samples: [],
    closed: null,
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'investigation-opened': {
        const { investigation: _, ...opened } = entry.body
        return { ...state, opened: step(opened) }
      }
      case 'investigation-window-set': {
        const { investigation: _, ...window } = entry.body
        return { ...state, window: step(window) }
      }
      case 'hypothesis-stated': {
        const { investigation: _, ...stated } = entry.body
        return withTests({ ...state, hypotheses: [...state.hypotheses, { ...step(stated), test: null }] })
      }
      case 'hypothesis-tested': {
        const { investigation: _, ...test } = entry.body
        return withTests({ ...state, tests: [...state.tests, step(test)] })
      }
      case 'investigation-step-marked': {
        const { investigation: _, ...marked } = entry.body
        return { ...state, steps: { ...state.steps, [marked.step]: step(marked) } }
      }
      case 'action-taken': {
        const { investigation: _, ...action } = entry.body
        return { ...state, actions: [...state.actions, step(action)] }
      }
      case 'sample-taken':
        return { ...state, samples: [...state.samples, entry.body.sample] }
      case 'investigation-closed': {
        const { investigation: _, ...closed } = entry.body
        return { ...state, closed: step(closed) }
      }
      default:
        return state
    }
  },
  takeBack(state, { id, kind }, instead) {
    if (kind !== 'hypothesis-stated' || instead === undefined) return state
    return withTests({ ...state, corrected: { ...state.corrected, [id]: instead } })
  },
  standing: (state) => (state.closed === null ? 'open' : 'closed'),
}

/** The entry that states a hypothesis now, of one that stated it once. */
export function statedBy({ corrected }: Pick<InvestigationKnown, 'corrected'>, entry: EntryId): EntryId {
  return corrected[entry] ?? entry
}

/** Each hypothesis with its last result: a correction keeps what was said of it, be it entered for a time before or after. */
function withTests(state: InvestigationKnown): InvestigationKnown {
  const hypotheses = state.hypotheses.map((each) => ({
    ...each,
    test: state.tests.findLast(({ hypothesis }) => statedBy(state, hypothesis) === each.entry) ?? null,
  }))
  return { ...state, hypotheses }
}
