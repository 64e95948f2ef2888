import type { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import type { RiskCategory } from '#road/wounds/surveillance/risk-index.ts'
import type { RecallWay } from '#road/wounds/investigation/recall-way.ts'
import type { Ranking } from '../compute/task.ts'
import type { SampleBeside } from './samples-beside.ts'

/** Which infections are looked into. Those of another kind are left out, for they are no healthy company either. */
export const infectionChoices = ['all', 'counted', 'late', 'acidFast'] as const
export type InfectionChoice = (typeof infectionChoices)[number]

export interface SuspectsAsked {
  readonly infections: InfectionChoice
  readonly permutations: number
}

/** The operations that were compared. */
export interface SuspectsSpan {
  /** Days of operation, both included. */
  readonly from: string
  readonly to: string
  /** The investigation whose days they are; null for the days up to now. */
  readonly of: {
    readonly investigation: SubjectId<'investigation'>
    /** Why the days were set so. */
    readonly why: string | null
    /** As it was known at this closing; null: as it is known now. */
    readonly knownAt: Instant | null
  } | null
  /** Only these wounds count, as the investigation names them; all when none is named. */
  readonly wounds: readonly SubjectId<'wound'>[]
}

/** The ranking of what the infected met, with the line list that it rests on. */
export interface Suspects {
  readonly asked: SuspectsAsked
  readonly span: SuspectsSpan
  readonly ranking: Ranking
  /** Names for the ids of the ranking. */
  readonly titles: Readonly<Record<string, string>>
  /** From each thing that is ranked, by its type and id, to what else it touched. */
  readonly recalls: Readonly<Record<string, RecallWay>>
  /** What was sampled in the unit in these days, whatever grew. */
  readonly samples: readonly SampleBeside[]
  readonly lines: readonly SuspectLine[]
}

/** One case with what it met, for the picture: pseudonymous. */
export interface SuspectLine {
  readonly case: SubjectId<'case'>
  readonly day: string
  readonly procedure: string
  readonly infected: boolean
  readonly onsetDays: number | null
  readonly organism: string | null
  readonly riskIndex: RiskCategory | null
  readonly met: readonly string[]
}
