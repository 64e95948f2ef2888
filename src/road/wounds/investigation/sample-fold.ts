import type { Fold } from '../../fold.ts'
import type { Bodies } from '../../kinds.ts'
import type { Step } from '../../round.ts'
import type { SubjectId } from '../../subject.ts'

export interface SampleKnown {
  readonly id: SubjectId<'sample'>
  readonly taken: Step<Omit<Bodies['sample-taken'], 'sample'>> | null
  /** The last reading stands; an earlier one stays in the record. */
  readonly read: Step<Omit<Bodies['sample-read'], 'sample'>> | null
}

export const sampleFold: Fold<'sample', SampleKnown> = {
  subject: 'sample',
  begin: (id) => ({ id, taken: null, read: null }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'sample-taken': {
        const { sample: _, ...taken } = entry.body
        return { ...state, taken: step(taken) }
      }
      case 'sample-read': {
        const { sample: _, ...read } = entry.body
        return { ...state, read: step(read) }
      }
      default:
        return state
    }
  },
  standing: sampleStanding,
}

export type SampleStanding = 'waiting' | 'growth' | 'noGrowth'

export function sampleStanding({ read }: SampleKnown): SampleStanding {
  if (read === null || read.culture === 'pending') return 'waiting'
  return read.culture === 'growth' || read.acidFast === 'positive' ? 'growth' : 'noGrowth'
}
