import { invariant } from '#units/invariant.ts'
import type { ReadList } from '#road/list-import/appointment.ts'
import { type Compute, TookTooLong } from '../compute/compute.ts'
import { type ListTask, readList } from './read-list.ts'

/** The longest that one list is read: a large one takes less than a second. The start of a thread is in it. */
export const secondsForList = 30

/** Reads a calendar away from the thread that answers: one without an end is stopped, and nothing of it is read. The others have one. */
export async function readWithin(compute: Compute, task: ListTask, seconds = secondsForList): Promise<ReadList> {
  if (task.format !== 'icalendar') return readList(task)
  try {
    const answer = await compute.run({ kind: 'readList', about: task }, seconds)
    invariant(answer.kind === 'list', 'a list is answered by a list')
    return answer.list
  } catch (error) {
    const why = whyStopped(error)
    if (why === undefined) throw error
    const says = `the list ${why}: nothing of it was read. Look for an event that repeats on a day that no year has, such as 30 February, or send the list in parts`
    return { appointments: [], unreadable: [{ line: 1, says }] }
  }
}

function whyStopped(error: unknown): string | undefined {
  if (error instanceof TookTooLong) return `took too long and was stopped after ${error.seconds} s`
  if (error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY')
    return 'took too much memory and was stopped'
  return undefined
}
