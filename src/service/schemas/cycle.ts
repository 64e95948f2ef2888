import { z } from 'zod'
import { GasLine } from '#workings/gas/gas-chart.ts'
import { SteamPin } from '#workings/steam/pins.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import { EntryId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { CycleReport } from '#road/sterilising/entries.ts'
import { subjectOf } from '#road/subject.ts'

const LogMap = z.record(z.string(), z.json())
const Values = z.array(z.number().nullable())
const Seconds = z.object({ startSeconds: z.number(), endSeconds: z.number() })

export const CycleLogInput = z.strictObject({
  log: z.union([z.strictObject({ digest: AttachmentDigest }), z.strictObject({ text: z.string().min(1) })]),
  program: z.string().min(1).max(80),
  map: LogMap.optional(),
  machine: subjectOf('machine').optional(),
  cycle: z.int().min(1).optional(),
  startedAt: Instant.optional(),
})

export const LoadCycleInput = z
  .strictObject({
    id: EntryId,
    by: subjectOf('person'),
    workstation: z.string().min(1).max(80),
    text: z.string().min(1).optional(),
    /** A log that came from the load's machine by itself, by its digest: instead of its text. */
    arrived: AttachmentDigest.optional(),
    program: z.string().min(1).max(80),
    map: LogMap.optional(),
    cycle: z.int().min(1).optional(),
    cycleNumber: z.string().max(40).optional(),
    startedAt: Instant.optional(),
  })
  .refine(({ text, arrived }) => (text === undefined) !== (arrived === undefined), {
    path: ['text'],
    message: 'either the text of a log, or `arrived` with the digest of one that came by itself',
  })

export const CycleChartAnswer = z.object({
  seconds: z.array(z.number()),
  pressureKPa: Values,
  theoreticalC: Values,
  lethalityMinutes: Values,
  channels: z.array(z.object({ name: z.string(), role: z.enum(['reference', 'load', 'above']), celsius: Values })),
  phases: z.array(Seconds.extend({ phase: z.string() })),
  plateau: Seconds.nullable(),
  pins: z.array(SteamPin),
  gas: z.array(GasLine).optional(),
})

export const CycleLogAnswerSchema = z.object({
  program: z.string(),
  cycles: z.array(
    z.object({
      cycle: z.int(),
      startedAt: Instant.nullable(),
      endedAt: Instant.nullable(),
      report: CycleReport,
      chart: CycleChartAnswer,
      policyVersion: z.string().exactOptional(),
    }),
  ),
  notes: z.array(z.string()).readonly().exactOptional(),
})
