import { z } from 'zod'
import { AttachmentDigest } from '#road/attachment.ts'
import { Instant } from '#road/instant.ts'
import { type SubjectId, subjectOf } from '#road/subject.ts'
import type { CycleChart } from './api-types.ts'
import { CycleChartAnswer } from './schemas/cycle.ts'

/*
 * What the API says of how a machine is connected, what came from it, and what it prints just now. Screens take the types of
 * it alone.
 */

const Mark = z.string().trim().min(1).max(80)

/** How a printed stream is heard and split into cycles. */
export const LineSettings = z.strictObject({
  /** One of the addresses that the service may listen on. */
  address: z.string().min(1).max(60),
  port: z.int().min(1024).max(65_535),
  /** The one address that may connect; null lets any. */
  from: z.string().min(1).max(60).nullable(),
  startMark: Mark.nullable(),
  endMark: Mark.nullable(),
  /** A cycle in which nothing was printed for so long is over. */
  silenceSeconds: z.int().min(5).max(7200),
})
export type LineSettings = z.infer<typeof LineSettings>

/** Where the logs of a machine come from by themselves; both null is off. */
export const MachineConnection = z.strictObject({
  /** A folder under the configured root, by its path from there. */
  folder: z.string().trim().min(1).max(300).nullable(),
  line: LineSettings.nullable(),
})
export type MachineConnection = z.infer<typeof MachineConnection>

export const ConnectionAnswer = z.object({
  machine: subjectOf('machine'),
  connection: MachineConnection,
  changedBy: z.string().nullable(),
  changedAt: Instant.nullable(),
  /** What this service may watch and listen on; null and none where it was not configured. */
  folderRoot: z.string().nullable(),
  addresses: z.array(z.string()),
  /** What the service makes of it just now, in words; null while it is off. */
  folderSays: z.string().nullable(),
  lineSays: z.string().nullable(),
})
export type ConnectionAnswer = z.infer<typeof ConnectionAnswer>

export const ArrivedCycle = z.object({
  cycle: z.int(),
  startedAt: Instant,
  endedAt: Instant,
})

/** A log that came by itself. */
export const Arrival = z.object({
  /** The digest of what is kept, or a name of its own for what was too large to keep. */
  id: z.string(),
  log: AttachmentDigest.nullable(),
  from: z.enum(['folder', 'line']),
  name: z.string(),
  arrivedAt: Instant,
  bytes: z.int(),
  /** Whether the log tells its own times. If not they are counted back from when it was written. */
  dated: z.boolean(),
  /** The moment of its first reading where the log does not tell it. */
  firstReadingAt: Instant.nullable(),
  cycles: z.array(ArrivedCycle),
  /** Why it could not be read: what was wanted, what came. */
  problem: z.string().nullable(),
  /** What is to be known of how it came, such as that it was ended by silence. */
  note: z.string().nullable(),
})
export type Arrival = z.infer<typeof Arrival>

const Proposal = z.object({
  load: subjectOf('load'),
  program: z.string(),
  builtAt: Instant,
  minutesBefore: z.int(),
})

export const ArrivalRow = Arrival.extend({
  /** The loads whose cycle was read from it: while there is none, it waits. */
  takenBy: z.array(subjectOf('load')),
  proposals: z.array(Proposal).readonly(),
})
export type ArrivalRow = z.infer<typeof ArrivalRow>

export const ArrivalsAnswer = z.object({ arrivals: z.array(ArrivalRow).readonly() })
export type ArrivalsAnswer = z.infer<typeof ArrivalsAnswer>

/** PUT /api/machines/:machine/connection */
export const ConnectionInput = z.strictObject({ by: subjectOf('person'), connection: MachineConnection })
export type ConnectionInput = z.infer<typeof ConnectionInput>

/** What a simulated machine does otherwise than it should. */
export const PracticeFault = z.enum(['none', 'airLeft', 'shortHold'])
export type PracticeFault = z.infer<typeof PracticeFault>

const PracticeSetting = {
  /** 1 is true speed. */
  speed: z.number().min(1).max(600),
  fault: PracticeFault,
  seed: z.int().min(0).max(2_147_483_647),
}

/** POST /api/machines/:machine/practice */
export const PracticeInput = z.strictObject(PracticeSetting)
export type PracticeInput = z.infer<typeof PracticeInput>

export const PracticeState = z.object({ ...PracticeSetting, seconds: z.number() })
export type PracticeState = z.infer<typeof PracticeState>

/** GET /api/machines/:machine/running. A cycle that is not over is not evaluable: there is no other result in it. */
export const RunningAnswerSchema = z.object({
  machine: subjectOf('machine'),
  /** Set while the machine is a simulated one, of the demonstration. */
  practice: PracticeState.nullable(),
  running: z
    .object({
      lines: z.int(),
      lastLineAt: Instant,
      latest: z.array(z.string()),
      program: z.string(),
      /** The one load that waits for it; null where there is none, or more than one. */
      load: subjectOf('load').nullable(),
      /** Why nothing can be drawn yet. */
      says: z.string().nullable(),
      reading: z
        .object({
          seconds: z.number(),
          phase: z.string().nullable(),
          verdict: z.literal('notEvaluable'),
          criteria: z.array(
            z.object({
              id: z.string(),
              result: z.literal('notEvaluable'),
              measured: z.string().nullable(),
              limit: z.string().nullable(),
              source: z.string(),
            }),
          ),
          chart: CycleChartAnswer,
        })
        .nullable(),
    })
    .nullable(),
})

export interface RunningReading {
  readonly seconds: number
  readonly phase: string | null
  readonly verdict: 'notEvaluable'
  readonly criteria: readonly {
    readonly id: string
    readonly result: 'notEvaluable'
    readonly measured: string | null
    readonly limit: string | null
    readonly source: string
  }[]
  readonly chart: CycleChart
}

export interface RunningAnswer {
  readonly machine: SubjectId<'machine'>
  readonly practice: PracticeState | null
  readonly running: {
    readonly lines: number
    readonly lastLineAt: string
    readonly latest: readonly string[]
    readonly program: string
    readonly load: SubjectId<'load'> | null
    readonly says: string | null
    readonly reading: RunningReading | null
  } | null
}
