import type { Fold } from '../fold.ts'
import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface ImmersionKnown {
  readonly id: SubjectId<'immersion'>
  readonly bath: SubjectId<'bath'> | null
  readonly rounds: readonly SubjectId<'round'>[]
  readonly started: Step<Omit<Bodies['immersion-started'], 'immersion' | 'bath' | 'rounds'>> | null
  readonly ended: Step<object> | null
  readonly rinses: readonly Step<Omit<Bodies['bath-rinsed'], 'immersion'>>[]
  readonly decision: Step<Omit<Bodies['immersion-decided'], 'immersion' | 'rounds'>> | null
}

export const immersionFold: Fold<'immersion', ImmersionKnown> = {
  subject: 'immersion',
  begin: (id) => ({ id, bath: null, rounds: [], started: null, ended: null, rinses: [], decision: null }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'immersion-started': {
        const { immersion: _, bath, rounds, ...started } = entry.body
        return { ...state, bath, rounds, started: step(started) }
      }
      case 'immersion-ended':
        return { ...state, ended: step({}) }
      case 'bath-rinsed': {
        const { immersion: _, ...rinse } = entry.body
        return { ...state, rinses: [...state.rinses, step(rinse)] }
      }
      case 'immersion-decided': {
        const { immersion: _, rounds: __, ...decision } = entry.body
        return { ...state, decision: step(decision) }
      }
      default:
        return state
    }
  },
  takeBack(state, entry, instead) {
    if (entry.kind !== 'immersion-decided' || state.decision?.entry === instead) return state
    return { ...state, decision: null }
  },
  standing: immersionStanding,
}

export type ImmersionStanding = 'immersed' | 'takenOut' | 'readyForUse' | 'treatAgain'

export function immersionStanding(immersion: ImmersionKnown): ImmersionStanding {
  if (immersion.decision !== null) return immersion.decision.outcome
  return immersion.ended === null ? 'immersed' : 'takenOut'
}
