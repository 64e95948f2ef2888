import type { Problem } from '#units/problem.ts'
import type { AttachmentDigest } from '#road/attachment.ts'
import { changedPrograms } from '#road/gases/changed-programs.ts'
import { unitPolicy } from '#road/gather.ts'
import { type Instant, instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { policyAt, policyFrom } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import type { CycleLogAnswer, CycleReading } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { decodeLog } from '#workings/steam/decode-log.ts'
import type { CycleTask } from './read-cycles.ts'

export type CyclesOr = CycleLogAnswer | { readonly problems: readonly Problem[] }

/** Reads a log away from the thread that answers requests. */
async function readCyclesAside({ compute }: RecordContext, task: CycleTask): Promise<CyclesOr> {
  const answer = await compute.run({ kind: 'readCycles', ...task })
  switch (answer.kind) {
    case 'cycles':
      return answer.answer
    case 'unusable':
      return { problems: answer.problems }
    case 'output':
    case 'ranking':
    case 'explained':
    case 'simulated':
      throw new TypeError(`a log is answered with cycles: current answer is ${answer.kind}`)
  }
}

/** The text of a kept log; undefined when no file has that digest. */
export async function keptLog({ reader }: RecordContext, digest: AttachmentDigest): Promise<string | undefined> {
  const kept = await reader.attachment(digest)
  return kept && decodeLog(kept.bytes)
}

/** A log of a machine, and how a person wants it read. */
export interface LogToRead extends Pick<CycleTask, 'text' | 'program' | 'map' | 'cycle' | 'startedAt'> {
  readonly machine: SubjectId<'machine'> | null | undefined
}

/**
 * Reads a log by the limits that were in force when its cycle began: `at`, or what the log says. A limit that was changed
 * since leaves the verdict as it was. A cycle whose beginning nobody tells is read by the limits of now.
 */
export async function readInForce(
  context: RecordContext,
  log: LogToRead,
  at?: Instant,
): Promise<CyclesOr & { readonly map?: LogToRead['map'] }> {
  const { machine, ...task } = log
  const policy = (await context.reader.known([unitPolicy])).get(unitPolicy)
  const hints = await machineHints(context, machine)
  const map = log.map ?? hints.map
  const read = (moment: Instant | null, cycle: number | undefined) =>
    readCyclesAside(context, {
      ...task,
      map,
      cycle,
      chamberLitres: hints.chamberLitres,
      windows: { ...changedAt(policy, moment), ...hints.windows },
    })
  const answer = await read(at ?? null, log.cycle)
  if ('problems' in answer) return { ...answer, map }
  if (at !== undefined) return { ...answer, cycles: answer.cycles.map((cycle) => stamped(policy, cycle, at)), map }
  const now = JSON.stringify(changedAt(policy, null))
  const cycles: CycleReading[] = []
  for (const cycle of answer.cycles) {
    const began = cycle.startedAt === null ? null : instant(Date.parse(cycle.startedAt))
    if (JSON.stringify(changedAt(policy, began)) === now) cycles.push(stamped(policy, cycle, began))
    else {
      // A worker reads one cycle after the other.
      const again = await read(began, cycle.cycle)
      if ('problems' in again) return again
      cycles.push(...again.cycles.map((each) => stamped(policy, each, began)))
    }
  }
  return { ...answer, cycles, map }
}

/** The policy of a moment; null asks for that of now. */
function inForce(policy: KnownOf<'policy'> | undefined, moment: Instant | null) {
  return moment === null ? policyFrom(policy) : policyAt(policy, moment)
}

function changedAt(policy: KnownOf<'policy'> | undefined, moment: Instant | null) {
  return changedPrograms(inForce(policy, moment))
}

/** A cycle with the version of the limits that it was read by. */
function stamped(policy: KnownOf<'policy'> | undefined, cycle: CycleReading, moment: Instant | null): CycleReading {
  return { ...cycle, policyVersion: inForce(policy, moment).version }
}

/**
 * What a machine adds to the reading of its logs: its own programmes, which go before those of the policy, the volume of
 * the chamber, how its columns are read.
 */
async function machineHints(
  { reader }: RecordContext,
  machine: SubjectId<'machine'> | null | undefined,
): Promise<Pick<CycleTask, 'map' | 'chamberLitres' | 'windows'>> {
  const known = machine === null || machine === undefined ? undefined : (await reader.known([machine])).get(machine)
  if (known === undefined) return {}
  return {
    chamberLitres: known.chamberLitres,
    windows: known.windows,
    ...(known.logMap === null ? {} : { map: known.logMap }),
  }
}
