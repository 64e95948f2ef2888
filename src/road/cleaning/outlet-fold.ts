import type { Fold } from '../fold.ts'
import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface OutletKnown {
  readonly id: SubjectId<'outlet'>
  readonly name: string
  readonly use: Bodies['outlet-registered']['use'] | null
  readonly treatment: Bodies['outlet-registered']['treatment'] | null
  /** The last samples, the newest last. */
  readonly samples: readonly Step<Omit<Bodies['water-sampled'], 'outlet'>>[]
}

/** Two years of monthly samples are at hand; the entries keep them all. */
const samplesKept = 24

export const outletFold: Fold<'outlet', OutletKnown> = {
  subject: 'outlet',
  begin: (id) => ({ id, name: '', use: null, treatment: null, samples: [] }),
  evolve(state, entry) {
    switch (entry.kind) {
      case 'outlet-registered':
        return { ...state, name: entry.body.name, use: entry.body.use, treatment: entry.body.treatment }
      case 'water-sampled': {
        const { outlet: _, ...sample } = entry.body
        const step = { ...sample, at: entry.happenedAt, entry: entry.id, by: entry.by }
        return { ...state, samples: [...state.samples, step].slice(-samplesKept) }
      }
      default:
        return state
    }
  },
  standing: (state) => (state.samples.length === 0 ? 'neverSampled' : 'sampled'),
}
