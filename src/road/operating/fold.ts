import type { Bodies } from '../kinds.ts'
import type { Fold } from '../fold.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import type { PatientFacts } from './patient-facts.ts'

export interface CaseKnown {
  readonly id: SubjectId<'case'>
  readonly booked: Step<Omit<Bodies['case-booked'], 'case'>> | null
  /** What the patient has that bars a way of treating the sets, as it was noted last; null when nobody noted anything. */
  readonly patientFacts: Step<PatientFacts> | null
  readonly opened: readonly Step<Omit<Bodies['pack-opened'], 'case'>>[]
  readonly recorded: Step<Omit<Bodies['case-recorded'], 'case'>> | null
  /** What guarded the wound, each measure as it was noted last. */
  readonly prevention: Step<Omit<Bodies['prevention-noted'], 'case'>> | null
  readonly implantDecision: Step<Omit<Bodies['implant-decided'], 'case'>> | null
  readonly doses: readonly Step<Omit<Bodies['antibiotic-given'], 'case'>>[]
  readonly followUps: readonly Step<Omit<Bodies['follow-up-made'], 'case'>>[]
  readonly followUpEnded: Step<Omit<Bodies['follow-up-ended'], 'case'>> | null
  readonly wounds: readonly SubjectId<'wound'>[]
  /** Its place on the list as somebody fixed it last. */
  readonly locked?: Step<Omit<Bodies['case-locked'], 'case'>> | undefined
  /** Its place on the list of the day that was kept last. */
  readonly planned?:
    | Step<Omit<Bodies['list-planned']['cases'][number], 'case'> & { readonly list: SubjectId<'list'> }>
    | undefined
}

export const caseStandings = ['booked', 'running', 'recorded'] as const
export type CaseStanding = (typeof caseStandings)[number]

export const caseFold: Fold<'case', CaseKnown> = {
  subject: 'case',
  begin: (id) => ({
    id,
    booked: null,
    patientFacts: null,
    opened: [],
    recorded: null,
    prevention: null,
    implantDecision: null,
    doses: [],
    followUps: [],
    followUpEnded: null,
    wounds: [],
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'case-booked': {
        const { case: _, ...booked } = entry.body
        const { patientFacts } = booked
        return {
          ...state,
          booked: step(booked),
          patientFacts: patientFacts === undefined ? state.patientFacts : step(patientFacts),
        }
      }
      case 'patient-facts-noted':
        return { ...state, patientFacts: step(entry.body.facts) }
      case 'pack-opened': {
        const { case: _, ...opened } = entry.body
        return { ...state, opened: [...state.opened, step(opened)] }
      }
      case 'case-recorded': {
        const { case: _, ...recorded } = entry.body
        return { ...state, recorded: step(recorded) }
      }
      case 'prevention-noted': {
        const { case: _, ...noted } = entry.body
        const measures = { ...state.prevention?.measures, ...noted.measures }
        return { ...state, prevention: step({ ...state.prevention, ...noted, measures }) }
      }
      case 'implant-decided': {
        const { case: _, ...decided } = entry.body
        return { ...state, implantDecision: step(decided) }
      }
      case 'antibiotic-given': {
        const { case: _, ...given } = entry.body
        return { ...state, doses: [...state.doses, step(given)] }
      }
      case 'follow-up-made': {
        const { case: _, ...made } = entry.body
        return { ...state, followUps: [...state.followUps, step(made)] }
      }
      case 'follow-up-ended': {
        const { case: _, ...ended } = entry.body
        return { ...state, followUpEnded: step(ended) }
      }
      case 'case-locked': {
        const { case: _, ...locked } = entry.body
        return { ...state, locked: step(locked) }
      }
      case 'list-planned': {
        const row = entry.body.cases.find((each) => each.case === state.id)
        if (row === undefined) return state
        const { case: _, ...place } = row
        return { ...state, planned: step({ ...place, list: entry.body.list }) }
      }
      case 'wound-noted':
        return { ...state, wounds: [...state.wounds, entry.body.wound] }
      default:
        return state
    }
  },
  standing: caseStanding,
}

export function caseStanding(state: CaseKnown): CaseStanding {
  if (state.recorded !== null) return 'recorded'
  return state.opened.length > 0 ? 'running' : 'booked'
}
