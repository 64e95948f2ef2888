import type { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Call } from '#road/wounds/follow-up/follow-ups-of.ts'
import { daysBefore, readLines, type WoundReader } from './read-lines.ts'

/** A call that somebody has to make, or has missed. */
export interface DueCall {
  readonly case: SubjectId<'case'>
  readonly patient: string
  readonly procedure: string
  readonly operatedAt: Instant
  readonly call: Call
  /** Attempts that reached nobody since it was due. */
  readonly attempts: number
  readonly lastHeardAt: Instant | null
}

/** Operations older than this have no call left that could still be made in time. */
const reachDays = 460

/** The calls that are due or overdue now, the most overdue first, and those of the days to come. */
export async function callsDue(reader: WoundReader, now: Instant, aheadDays: number): Promise<readonly DueCall[]> {
  const { lines, cases } = await readLines(reader, now, daysBefore(now, reachDays))
  const until = daysBefore(now, -aheadDays)
  return lines
    .flatMap((line) =>
      line.followUp.calls
        .filter(({ state, dueAt }) => state === 'due' || state === 'overdue' || (state === 'later' && dueAt <= until))
        .map((call): DueCall => {
          const operation = cases.get(line.case)
          const tries = operation?.followUps.filter((each) => each.reached === 'nobody' && each.at >= call.dueAt) ?? []
          return {
            case: line.case,
            patient: operation?.booked?.patient ?? '',
            procedure: line.procedure,
            operatedAt: line.at,
            call,
            attempts: tries.length,
            lastHeardAt: line.followUp.lastHeardAt,
          }
        }),
    )
    .sort((a, b) => (a.call.dueAt < b.call.dueAt ? -1 : 1))
}
