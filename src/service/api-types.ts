import type { Problem } from '#units/problem.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'
import type { KnownOf } from '#road/known.ts'
import type { Link } from '#road/link.ts'
import type { RoundStanding } from '#road/round.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'

/*
 * What the HTTP API says, for those who call it. Types only: the screens import this file and
 * nothing else of the service.
 */

/** An RFC 9457 problem; `findings` when rules refused, `problems` when the input could not be used. */
export interface ApiProblem {
  readonly type: string
  readonly title: string
  readonly status: number
  readonly detail: string
  readonly findings?: readonly Finding[]
  readonly problems?: readonly Problem[]
}

/** GET /api/unit */
export type UnitState =
  | { readonly state: 'new' }
  | { readonly state: 'settingUp'; readonly done: number; readonly total: number }
  | {
      readonly state: 'open'
      readonly site: string
      readonly unit: KnownOf<'unit'>
      readonly head: { readonly seq: number; readonly hash: string }
    }

/** POST /api/unit */
export type UnitChoice =
  | { readonly choice: 'demonstration' }
  | { readonly choice: 'empty'; readonly name: string; readonly timeZone: string; readonly manager: string }

/** POST /api/entries answers 201 (kept) or 200 (the same entry was kept before). */
export interface EntryKept {
  readonly outcome: 'kept' | 'alreadyKept'
  readonly entry: KeptEntry
  readonly findings: readonly Finding[]
}

/** POST /api/entries/judge: the same rules, nothing written. */
export interface EntryJudged {
  readonly refused: boolean
  readonly findings: readonly Finding[]
}

/** GET /api/known/:subject and the rows of GET /api/known?kind=… */
export interface KnownRow<Kind extends SubjectKind = SubjectKind> {
  readonly subject: SubjectId<Kind>
  readonly kind: Kind
  readonly standing: string
  /** When it came to stand there. */
  readonly since: string
  readonly state: KnownOf<Kind>
}

/** GET /api/trace/:subject?direction=back|forward|both */
export interface TraceAnswer {
  readonly start: SubjectId
  readonly nodes: readonly {
    readonly subject: SubjectId
    readonly standing: string | null
    readonly title: string
    /** Steps from the start; negative looks back, positive forward. */
    readonly distance: number
    readonly at: string | null
  }[]
  readonly links: readonly Link[]
}

/** GET /api/recalls/:recall: the extent, computed from the record as it is now. */
export interface RecallAnswer {
  readonly recall: KnownOf<'recall'>
  readonly standing: 'open' | 'closed'
  /** The last load on the same machine with a good biological result before the failure; null when there is none. */
  readonly lastGood: SubjectId<'load'> | null
  readonly loads: readonly {
    readonly load: SubjectId<'load'>
    readonly at: string
    /** What is to be done with its packs. */
    readonly duty: 'recall' | 'hold' | 'cleared'
    readonly why: string
  }[]
  readonly packs: readonly {
    readonly round: SubjectId<'round'>
    readonly set: SubjectId<'set'>
    readonly load: SubjectId<'load'>
    readonly duty: 'recall' | 'hold' | 'cleared'
    readonly place: RoundStanding
    readonly shelf: string | null
    readonly case: SubjectId<'case'> | null
    readonly outcome: string | null
  }[]
  /** What still stands against closing it. */
  readonly findings: readonly Finding[]
}

/** POST /api/cycle-logs/read */
export interface CycleLogRequest {
  /** The kept log, by digest; or its text, when nothing is to be kept yet. */
  readonly log: { readonly digest: string } | { readonly text: string }
  readonly program: string
  readonly map?: Record<string, unknown>
  readonly machine?: SubjectId<'machine'>
  readonly cycle?: number
}

/** One server-sent event of GET /api/live. */
export interface LiveChange {
  readonly seq: number
  readonly kind: string
  readonly subjects: readonly SubjectId[]
  /** Set when the entry must be seen at once: a failure, a pack used unreleased. */
  readonly alarm: string | null
}
