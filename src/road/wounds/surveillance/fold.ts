import type { Fold } from '../../fold.ts'
import type { Bodies } from '../../kinds.ts'
import type { Step } from '../../round.ts'
import type { SubjectId } from '../../subject.ts'

export interface ChartKnown {
  readonly id: SubjectId<'chart'>
  readonly set: Step<Omit<Bodies['chart-set'], 'chart'>> | null
  readonly model: Step<Omit<Bodies['risk-model-kept'], 'chart'>> | null
  readonly restarts: readonly Step<Omit<Bodies['chart-restarted'], 'chart'>>[]
  readonly changes: readonly Step<{ readonly says: string }>[]
}

export const chartFold: Fold<'chart', ChartKnown> = {
  subject: 'chart',
  begin: (id) => ({ id, set: null, model: null, restarts: [], changes: [] }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'chart-set': {
        const { chart: _, ...set } = entry.body
        return { ...state, set: step(set) }
      }
      case 'risk-model-kept': {
        const { chart: _, ...model } = entry.body
        return { ...state, model: step(model) }
      }
      case 'chart-restarted': {
        const { chart: _, ...restart } = entry.body
        return { ...state, restarts: [...state.restarts, step(restart)] }
      }
      case 'change-noted':
        return { ...state, changes: [...state.changes, step({ says: entry.body.says })] }
      default:
        return state
    }
  },
  standing: (state) => (state.set === null ? 'notSet' : 'watching'),
}
