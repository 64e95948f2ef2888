import type { Fold } from '../fold.ts'
import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface WoundKnown {
  readonly id: SubjectId<'wound'>
  readonly noted: Step<Omit<Bodies['wound-noted'], 'wound'>> | null
  readonly cultures: readonly Step<Omit<Bodies['wound-cultured'], 'wound'>>[]
  readonly treatments: readonly Step<Omit<Bodies['wound-treated'], 'wound'>>[]
  readonly judged: Step<Omit<Bodies['wound-judged'], 'wound'>> | null
}

export const woundStandings = ['noted', 'infection', 'notInfection'] as const
export type WoundStanding = (typeof woundStandings)[number]

export const woundFold: Fold<'wound', WoundKnown> = {
  subject: 'wound',
  begin: (id) => ({ id, noted: null, cultures: [], treatments: [], judged: null }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'wound-noted': {
        const { wound: _, ...noted } = entry.body
        return { ...state, noted: step(noted) }
      }
      case 'wound-cultured': {
        const { wound: _, ...cultured } = entry.body
        return { ...state, cultures: [...state.cultures, step(cultured)] }
      }
      case 'wound-treated': {
        const { wound: _, ...treated } = entry.body
        return { ...state, treatments: [...state.treatments, step(treated)] }
      }
      case 'wound-judged': {
        const { wound: _, ...judged } = entry.body
        return { ...state, judged: step(judged) }
      }
      default:
        return state
    }
  },
  standing: (state): WoundStanding => state.judged?.outcome ?? 'noted',
}

/** What the laboratory says last: the newest culture that has a result, else what was said when the wound was noted. */
export function organismOf(wound: WoundKnown): {
  readonly culture: Bodies['wound-noted']['culture']
  readonly acidFast: Bodies['wound-noted']['acidFast']
  readonly organism: string | null
} {
  const { noted, cultures } = wound
  const told = cultures.findLast((each) => each.culture === 'growth' || each.culture === 'noGrowth')
  const stains = [noted, ...cultures].flatMap((each) => (each === null ? [] : [each.acidFast]))
  const acidFast = stains.includes('positive') ? 'positive' : (stains.at(-1) ?? 'notDone')
  const organism = cultures.findLast((each) => each.organism !== undefined)?.organism ?? noted?.organism ?? null
  return { culture: told?.culture ?? noted?.culture ?? 'notTaken', acidFast, organism }
}
