import type { Problem } from '#units/problem.ts'
import type { GasLine } from '#workings/gas/gas-chart.ts'
import type { SteamPin } from '#workings/steam/pins.ts'
import type { Source } from '#units/source.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'
import type { Instant } from '#road/instant.ts'
import type { Stage } from '#road/kind.ts'
import type { KnownOf } from '#road/known.ts'
import type { ListedLoad } from '#road/sterilising/listed-load.ts'
import type { Link } from '#road/link.ts'
import type { Doubt } from '#road/storing/packs-in-doubt.ts'
import type { RoundStanding } from '#road/round.ts'
import type { CycleReport } from '#road/sterilising/entries.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import type { RecallVia } from '#road/tracing/recall-extent.ts'
import type { RecallVerdict } from '#road/tracing/recall-window.ts'
import type { LimitValue } from '#road/unit/fold.ts'

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
  /** What to do now, in one sentence. */
  readonly remedy: string
  /** Names one failure of ours; the same id stands in the log of the service. */
  readonly instance?: string
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
      /** Whether this service was given other sites to compare. */
      readonly comparesSites: boolean
      readonly unit: KnownOf<'unit'>
      readonly head: { readonly seq: number; readonly hash: string }
    }

/** GET /api/group */
export type { GroupAnswer, GroupSite } from './group/group-answer.ts'

/** GET /api/wounds/calls, /api/wounds/lines, /api/wounds/rates */
export type { DueCall } from './wounds/calls-due.ts'
export type { ClustersAnswer } from './wounds/clusters-answer.ts'
export type { ChartAnswer } from './wounds/read-chart.ts'
export type { InfectionChoice, Suspects } from './wounds/suspects-answer.ts'
export type { LookBack } from './wounds/look-back.ts'
export type { RateGroup, RatesBy } from './wounds/rates-by.ts'
export type { CaseLine } from '#road/wounds/surveillance/line.ts'

/** GET and POST /api/plan/:day */
export type { PlanOfDay } from './planning/plan-answer.ts'

/** POST /api/plan/:day/simulate */
export type { SimulationOfDay } from './planning/simulation-answer.ts'

/** GET and POST /api/seals */
export type { SealsAnswer, ShownSeal } from './keeping/seal-answers.ts'

/** POST /api/seals/check */
export interface SealCheckAnswer {
  readonly outcome: 'holds' | 'noProof' | 'broken'
  readonly says: string | null
}

/** GET and POST /api/backups */
export interface BackupsAnswer {
  /** Null when no folder is set: then none is made. */
  readonly schedule: { readonly folder: string; readonly everyHours: number } | null
  readonly running: boolean
  readonly overdue: boolean
  readonly last: { readonly at: Instant; readonly good: boolean; readonly says: string } | null
  readonly backups: readonly {
    readonly name: string
    readonly madeAt: Instant
    readonly bytes: number
    readonly entries: number
  }[]
}

/** POST /api/unit */
export type UnitChoice =
  | { readonly choice: 'demonstration'; readonly code?: string | undefined }
  | {
      readonly choice: 'empty'
      readonly name: string
      readonly timeZone: string
      readonly manager: string
      /** Where the service asks for sign-in: the code that its console printed, and the manager's passphrase. */
      readonly code?: string | undefined
      readonly passphrase?: string | undefined
    }

/** GET /api/me, /api/accounts, /api/devices, /api/access */
export type {
  AccessLine,
  AccountRow,
  DeviceRow,
  IdentityFound,
  IdentityLogLine,
  IdentityState,
  MeAnswer,
  PasskeyRow,
  SessionRow,
} from './sign-in/answers.ts'
export type { WebhookMade, WebhookRow, WebhookTried } from './exchange-answers.ts'
export type { ListImportAnswer, ListPreview, ListPreviewRow, TableRow } from './exchange-answers.ts'

/** POST /api/entries answers 201 (kept) or 200 (the same entry was kept before). */
export interface EntryKept {
  readonly outcome: 'kept' | 'alreadyKept'
  readonly entry: KeptEntry
  readonly findings: readonly Finding[]
}

/** POST /api/entries with a list answers 200 with one of these for each, in the same order. */
export type EntryAnswer =
  | EntryKept
  | { readonly outcome: 'refused' | 'idTaken' | 'unusable' | 'notAllowed'; readonly problem: ApiProblem }

/** GET /api/entries?subject=&upTo=&after=&limit= ; `next` is the `after` of the next page. */
export interface EntriesPage {
  readonly entries: readonly KeptEntry[]
  readonly next: number | null
}

/** POST /api/entries/judge: the same rules, nothing written. */
export interface EntryJudged {
  readonly refused: boolean
  readonly findings: readonly Finding[]
}

/** GET /api/known/:subject */
export interface KnownRow<Kind extends SubjectKind = SubjectKind> {
  readonly subject: SubjectId<Kind>
  readonly kind: Kind
  readonly standing: string
  /** When it came to stand there. */
  readonly since: string
  readonly state: KnownOf<Kind>
  /**
   * Of a pack that waits for use: why it is not to be used as things stand now. Of a bath or an immersion: what is to be
   * said of each set that was treated there and is not proven, also when it was used. Left out when nothing speaks against it.
   */
  readonly doubts?: readonly Doubt[]
}

/** A subject as lists give it: of a load without what only its own page shows. */
export type ListedRow<Kind extends SubjectKind = SubjectKind> = Omit<KnownRow<Kind>, 'state'> & {
  readonly state: Kind extends 'load' ? ListedLoad : KnownOf<Kind>
}

/** GET /api/known?kind=&standing=a,b&limit=&after=&order= ; `next` is the `after` of the next page. */
export interface KnownPage<Kind extends SubjectKind = SubjectKind> {
  readonly rows: readonly ListedRow<Kind>[]
  readonly next: string | null
}

/** GET /api/find?text=: the subject with exactly this key first, then those whose name or key holds the text. */
export interface FindAnswer {
  readonly found: readonly {
    readonly subject: SubjectId
    readonly kind: SubjectKind
    readonly standing: string
    readonly title: string
    readonly exact: boolean
  }[]
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
  /** Subjects with more links than were followed: of these the newest part is shown. */
  readonly more: readonly SubjectId[]
}

/** GET /api/recalls/:recall: the extent, computed from the record as it is now. */
export interface RecallAnswer {
  readonly recall: KnownOf<'recall'>
  readonly standing: 'open' | 'closed'
  /** The last load on the same machine with a good biological result before the failure; null when there is none. */
  readonly lastGood: SubjectId<'load' | 'immersion'> | null
  readonly failed: SubjectId<'load' | 'bath' | 'lot'>
  readonly machine: SubjectId<'machine'> | null
  /** How far the recall reaches, and why. */
  readonly verdict: RecallVerdict
  readonly because: string
  readonly repeats: { readonly good: number; readonly needed: number }
  /** The recall that holds these loads already: this one is about one of its repeats. */
  readonly coveredBy: SubjectId<'recall'> | null
  readonly loads: readonly {
    readonly load: RecallVia
    readonly at: string
    /** What is to be done with its packs. */
    readonly duty: 'recall' | 'hold' | 'cleared'
    readonly why: string
    readonly source: Source
  }[]
  readonly packs: readonly {
    readonly round: SubjectId<'round'>
    /** Null only when the entry that named the set was withdrawn. */
    readonly set: SubjectId<'set'> | null
    readonly load: RecallVia
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
  readonly map?: Readonly<Record<string, unknown>> | undefined
  readonly machine?: SubjectId<'machine'> | undefined
  readonly cycle?: number | undefined
  /** The moment of the first reading, for a log that does not name it. */
  readonly startedAt?: Instant | undefined
}

/** One cycle found in a log: what the reader made of it, and its curves thinned out for a picture. */
export interface CycleReading {
  /** Its place in the log, from 1. */
  readonly cycle: number
  readonly startedAt: string | null
  readonly endedAt: string | null
  readonly report: CycleReport
  readonly chart: CycleChart
  /** The version of the unit's limits in force when it began: the entry of the last change before it, or `defaults`. */
  readonly policyVersion?: string
}

/** POST /api/cycle-logs/read */
export interface CycleLogAnswer {
  readonly program: string
  readonly cycles: readonly CycleReading[]
  /** What is to be known of how it was read, as that the columns of its time did not open it. */
  readonly notes?: readonly string[]
}

/** GET /api/loads/:load/chart. Lists run together: the reading at one place belongs to the second at that place. */
export interface CycleChart {
  readonly seconds: readonly number[]
  readonly pressureKPa: readonly (number | null)[]
  /** Temperature of saturated steam at the pressure measured. */
  readonly theoreticalC: readonly (number | null)[]
  /** F of the coldest reading so far, minutes. */
  readonly lethalityMinutes: readonly (number | null)[]
  readonly channels: readonly {
    readonly name: string
    readonly role: 'reference' | 'load' | 'above'
    readonly celsius: readonly (number | null)[]
  }[]
  readonly phases: readonly { readonly phase: string; readonly startSeconds: number; readonly endSeconds: number }[]
  readonly plateau: { readonly startSeconds: number; readonly endSeconds: number } | null
  /** What went wrong, to be shown where it did. */
  readonly pins: readonly SteamPin[]
  /** Of a gas or dry heat log: every variable beside its window. */
  readonly gas?: readonly GasLine[] | undefined
}

/** POST /api/loads/:load/cycle: keeps the log, reads it, and records the cycle with what was read. */
export interface LoadCycleRequest {
  readonly id: string
  readonly by: SubjectId<'person'>
  readonly workstation: string
  readonly text?: string | undefined
  readonly arrived?: string | undefined
  readonly program: string
  readonly map?: Readonly<Record<string, unknown>> | undefined
  readonly cycle?: number | undefined
  readonly cycleNumber?: string | undefined
  readonly startedAt?: string | undefined
}

/** PUT /api/attachments */
export interface AttachmentKept {
  readonly digest: string
}

/** GET /api/workings: JSON Schemas of input and output, made from the schemas that check them. */
export interface WorkingDescription {
  readonly id: string
  readonly title: string
  readonly group: 'physics' | 'statistics' | 'planning' | 'cost'
  readonly method: string
  readonly validity: string
  readonly sources: readonly Source[]
  readonly input: JsonSchema
  readonly output: JsonSchema
  readonly example: { readonly input: unknown; readonly output: unknown }
}

/** GET /api/decide */
export interface TopicDescription {
  readonly topic: string
  readonly title: string
  readonly decisions: Readonly<Record<string, string>>
  readonly given: JsonSchema
  readonly sources: readonly Source[]
  readonly example: { readonly given: unknown; readonly decision: string }
}

export type JsonSchema = Readonly<Record<string, unknown>>

/** GET /api/policy */
export interface PolicyAnswer {
  readonly version: string
  readonly limits: readonly {
    readonly id: string
    readonly title: string
    readonly unit: string
    readonly value: LimitValue
    readonly source: Source
    readonly default: LimitValue
    readonly defaultSource: Source
    /** What a unit may set it to; null for a yes or no, or where anything of its type goes. */
    readonly allowed: { readonly from: number; readonly to: number } | { readonly oneOf: readonly string[] } | null
    readonly changed: {
      readonly by: string
      readonly at: string
      readonly reason: string
      readonly entry: string
    } | null
  }[]
}

/** GET /api/rules, in the order in which they are asked. */
export interface RuleRow {
  readonly id: string
  readonly says: string
  readonly on: readonly string[]
  readonly exceptionAllowed: boolean
}

/** GET /api/kinds, in the order of the road. */
export interface KindRow {
  readonly kind: string
  readonly stage: Stage
  readonly nature: 'fact' | 'decision'
  readonly title: string
  readonly body: JsonSchema
}

/** GET /api/health */
export interface HealthAnswer {
  readonly health: 'good'
  readonly version: string
  readonly engine: 'sqlite' | 'postgres'
  readonly head: number
  readonly now: string
  readonly standby: StandbyState
}

/** Whether another server of the database has each entry before it is acknowledged. */
export type StandbyState = 'confirms' | 'missing' | 'hidden' | 'alone' | 'notSeenYet' | 'notExpected'

/** One server-sent event of GET /api/live. */
export interface LiveChange {
  readonly seq: number
  readonly kind: string
  readonly subjects: readonly SubjectId[]
  /** Set when the entry must be seen at once: a failure, a pack used unreleased. */
  readonly alarm: string | null
}
