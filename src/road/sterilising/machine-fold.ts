import type { Bodies } from '../kinds.ts'
import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface MachineKnown {
  readonly id: SubjectId<'machine'>
  readonly name: string
  readonly type: Bodies['machine-registered']['type']
  readonly airRemoval: Bodies['machine-registered']['airRemoval']
  readonly chamberLitres: number
  readonly programs: readonly string[]
  readonly logMap: Bodies['machine-registered']['logMap'] | null
  readonly service: { readonly state: 'inService' | 'withdrawn'; readonly since: Instant | null; readonly why: string }
  readonly airRemovalTest: Step<Omit<Bodies['air-removal-tested'], 'machine'>> | null
  readonly leakTest: Step<Omit<Bodies['leak-tested'], 'machine'>> | null
  readonly repairedAt: Instant | null
  /** Air-removal tests passed in a row since the last repair or failure. */
  readonly airRemovalPasses: number
  readonly lastLoad: { readonly id: SubjectId<'load'>; readonly at: Instant } | null
}

export const machineFold: Fold<'machine', MachineKnown> = {
  subject: 'machine',
  begin: (id) => ({
    id,
    name: '',
    type: 'steamSteriliser',
    airRemoval: 'dynamic',
    chamberLitres: 0,
    programs: [],
    logMap: null,
    service: { state: 'inService', since: null, why: '' },
    airRemovalTest: null,
    leakTest: null,
    repairedAt: null,
    airRemovalPasses: 0,
    lastLoad: null,
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'machine-registered': {
        const { machine: _, logMap, ...attributes } = entry.body
        return { ...state, ...attributes, logMap: logMap ?? null }
      }
      case 'machine-withdrawn':
        return { ...state, service: { state: 'withdrawn', since: entry.happenedAt, why: entry.body.why } }
      case 'machine-returned':
        return { ...state, service: { state: 'inService', since: entry.happenedAt, why: entry.body.why } }
      case 'machine-repaired':
        return { ...state, repairedAt: entry.happenedAt, airRemovalPasses: 0 }
      case 'air-removal-tested': {
        const { machine: _, ...test } = entry.body
        return {
          ...state,
          airRemovalTest: step(test),
          airRemovalPasses: test.result === 'passed' ? state.airRemovalPasses + 1 : 0,
        }
      }
      case 'leak-tested': {
        const { machine: _, ...test } = entry.body
        return { ...state, leakTest: step(test) }
      }
      case 'load-built':
        return { ...state, lastLoad: { id: entry.body.load, at: entry.happenedAt } }
      default:
        return state
    }
  },
  standing: (state) => state.service.state,
}
