import { describeProblem, type Problem } from '#units/problem.ts'
import type { AttachmentDigest } from '#road/attachment.ts'
import { changedPrograms } from '#road/gases/changed-programs.ts'
import { unitPolicy } from '#road/gather.ts'
import { type Instant, instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { policyAt, policyFrom } from '#road/policy.ts'
import { readInForceAt } from '#road/sterilising/read-in-force.ts'
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
    case 'list':
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
 * Reads a log by what was in force when its cycle began: `at`, or what the log says. Limits, programmes and columns that were
 * changed since leave the verdict as it was. A cycle whose beginning nobody tells is read by what is in force now. Columns of
 * then that do not open the log were wrong: those that do open it are kept to, by the limits of then, and a note says so.
 */
export async function readInForce(
  context: RecordContext,
  log: LogToRead,
  at?: Instant,
): Promise<CyclesOr & { readonly map?: LogToRead['map'] }> {
  const { machine: id, ...task } = log
  const policy = (await context.reader.known([unitPolicy])).get(unitPolicy)
  const machine = id === null || id === undefined ? undefined : (await context.reader.known([id])).get(id)
  const hintsOf = (moment: Instant | null) => {
    const { map, ...hints } = machineHints(machine, moment)
    return { ...hints, map: log.map ?? map, windows: { ...changedAt(policy, moment), ...hints.windows } }
  }
  const readBy = (hints: ReturnType<typeof hintsOf>, cycle: number | undefined) =>
    readCyclesAside(context, { ...task, ...hints, cycle })
  const read = (moment: Instant | null, cycle: number | undefined) => readBy(hintsOf(moment), cycle)
  let answer = await read(at ?? null, log.cycle)
  let { map } = hintsOf(at ?? null)
  // A log from before a change may only open by the columns of its time, and only then says when that was.
  for (const { at: then } of at === undefined ? (machine?.registered?.toReversed() ?? []) : []) {
    if (!('problems' in answer)) break
    const earlier = await read(then, log.cycle)
    if ('problems' in earlier) continue
    answer = earlier
    map = hintsOf(then).map
  }
  if ('problems' in answer) return { ...answer, map }
  if (at !== undefined) return { ...answer, cycles: answer.cycles.map((cycle) => stamped(policy, cycle, at)), map }
  const now = JSON.stringify(hintsOf(null))
  const cycles: CycleReading[] = []
  const notes: string[] = []
  const opens = map
  for (const cycle of answer.cycles) {
    const began = cycle.startedAt === null ? null : instant(Date.parse(cycle.startedAt))
    const hints = hintsOf(began)
    if (JSON.stringify(hints) === now) cycles.push(stamped(policy, cycle, began))
    else {
      // A worker reads one cycle after the other.
      const again = await readBy(hints, cycle.cycle)
      const other = JSON.stringify(hints.map) !== JSON.stringify(opens)
      const standing = 'problems' in again && other ? await readBy({ ...hints, map: opens }, cycle.cycle) : again
      if ('problems' in standing) return standing
      if ('problems' in again) notes.push(notOpened(cycle.cycle, again.problems))
      cycles.push(...standing.cycles.map((each) => stamped(policy, each, began)))
      map = 'problems' in again ? opens : hints.map
    }
  }
  return { ...answer, cycles, map, ...(notes.length === 0 ? {} : { notes }) }
}

function notOpened(cycle: number, [problem]: readonly Problem[]): string {
  const why = problem === undefined ? '' : ` (${describeProblem(problem)})`
  return `Cycle ${cycle}: the columns that its machine was registered with when it began do not open this log${why}. It is read by columns that were registered at another time. If those of then were wrong, correct them from the beginning.`
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
 * the chamber, how its columns are read; as they were at a moment.
 */
function machineHints(
  machine: KnownOf<'machine'> | undefined,
  moment: Instant | null,
): Pick<CycleTask, 'map' | 'chamberLitres' | 'windows'> {
  if (machine === undefined) return {}
  const { windows, logMap } = readInForceAt(machine, moment)
  return { chamberLitres: machine.chamberLitres, windows, ...(logMap === null ? {} : { map: logMap }) }
}
