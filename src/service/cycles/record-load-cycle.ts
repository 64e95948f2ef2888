import { createHash } from 'node:crypto'
import type { z } from 'zod'
import type { Problem } from '#units/problem.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import type { SentEntry } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { prepare } from '#journal/prepare.ts'
import type { SubjectId } from '#road/subject.ts'
import type { CycleReading } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import type { Arrivals } from '../intake/arrivals.ts'
import type { Recorded as SentRecorded } from '../entries/record-entries.ts'
import type { Authorise } from '../sign-in/authorise-entry.ts'
import type { LoadCycleInput } from '../schemas/cycle.ts'
import { keptLog, readInForce } from './cycle-reader.ts'

type Input = z.infer<typeof LoadCycleInput>

/** What it is recorded with: a service has it, and so has the command line. */
export type CycleParts = RecordContext & { readonly arrivals: Arrivals }

type Recorded =
  | { readonly kind: 'outcome'; readonly outcome: SentRecorded }
  | { readonly kind: 'noLoad' }
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

/** Keeps a log and records the cycle with the report read from it. Nothing is kept of a log that cannot be read. */
export async function recordLoadCycle(
  context: CycleParts,
  id: SubjectId<'load'>,
  input: Input,
  authorise: Authorise,
): Promise<Recorded> {
  const load = (await context.reader.known([id])).get(id)
  if (load === undefined) return { kind: 'noLoad' }
  const { program, cycle, startedAt, map: sentMap } = input
  const source = await logOf(context, load.machine, input)
  if ('problems' in source) return { kind: 'unusable', problems: source.problems }
  const { text, bytes } = source
  const read = await readInForce(context, { text, program, machine: load.machine, map: sentMap, cycle, startedAt })
  if ('problems' in read) return { kind: 'unusable', problems: read.problems }
  const { map } = read
  const [only, ...others] = read.cycles
  if (only === undefined || others.length > 0) return whichCycle(read.cycles.length)
  const when = Instant.safeParse(only.startedAt)
  const end = Instant.safeParse(only.endedAt)
  if (!when.success || !end.success) return noStart()
  const log = AttachmentDigest.parse(createHash('sha256').update(bytes).digest('hex'))
  const entry = entryOf(context, { load: id, input, map, log, reading: only, startedAt: when.data, endedAt: end.data })
  const prepared = prepare(theRoad, entry)
  if (prepared.kind === 'unusable') return { kind: 'outcome', outcome: prepared }
  const mayNot = await authorise.may(entry, 'cycle-logged')
  if (mayNot !== undefined) return { kind: 'outcome', outcome: { kind: 'notAllowed', problem: mayNot } }
  const authorised = await authorise.signed(entry, prepared.typed)
  if ('problem' in authorised) return { kind: 'outcome', outcome: { kind: 'notAllowed', ...authorised } }
  // Asked first, so that a log whose entry cannot be kept is not kept either.
  const dry = await context.journal.judge(entry)
  if (dry.kind !== 'wouldBeKept') return { kind: 'outcome', outcome: dry }
  await context.journal.attach(bytes, 'text/csv')
  return { kind: 'outcome', outcome: await context.journal.append(entry, authorised.signed) }
}

interface LogSource {
  readonly text: string
  readonly bytes: Uint8Array
}

/** The text that was sent, or the log that came by itself: only from the machine that the load was run on. */
async function logOf(
  context: CycleParts,
  machine: SubjectId<'machine'> | null,
  { text, arrived }: Input,
): Promise<LogSource | { readonly problems: readonly Problem[] }> {
  if (text !== undefined) return { text, bytes: new TextEncoder().encode(text) }
  const came = machine === null ? [] : await context.arrivals.of(machine)
  const log = came.find((each) => each.log !== null && each.log === arrived)?.log
  const kept = log === null || log === undefined ? undefined : await context.reader.attachment(log)
  const read = kept && (await keptLog(context, kept.digest))
  if (kept === undefined || read === undefined) {
    const wanted = 'the digest of a log that came from the machine of this load'
    return { problems: [{ field: 'arrived', wanted, current: `"${arrived}"` }] }
  }
  return { text: read, bytes: kept.bytes }
}

interface CycleEntry {
  readonly load: SubjectId<'load'>
  readonly input: Input
  readonly map: Readonly<Record<string, unknown>> | undefined
  readonly log: AttachmentDigest
  readonly reading: CycleReading
  readonly startedAt: Instant
  readonly endedAt: Instant
}

/** Happened when the cycle ended: the same log sent again gives the same entry. */
function entryOf(
  { site }: RecordContext,
  { load, input, map, log, reading, startedAt, endedAt }: CycleEntry,
): SentEntry {
  return {
    id: input.id,
    site,
    kind: 'cycle-logged',
    happenedAt: endedAt,
    by: input.by,
    workstation: input.workstation,
    body: {
      load,
      ...(input.cycleNumber === undefined ? {} : { cycleNumber: input.cycleNumber }),
      program: input.program,
      startedAt,
      endedAt,
      log,
      // A map is JSON by the schema that it came through.
      ...(map === undefined ? {} : { logMap: map as SentEntry['body'] }),
      cycleInLog: reading.cycle,
      report: { ...reading.report },
    },
  }
}

function whichCycle(cycles: number): Recorded {
  return {
    kind: 'unusable',
    problems: [{ field: 'cycle', wanted: `which of the ${cycles} cycles in the log`, current: 'missing' }],
  }
}

function noStart(): Recorded {
  const wanted = 'the moment of the first reading, since the log does not name date, time and zone'
  return { kind: 'unusable', problems: [{ field: 'startedAt', wanted, current: 'missing' }] }
}
