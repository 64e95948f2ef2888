import type { EntryKept, LoadCycleRequest } from '#service/api-types.ts'
import type { SubjectId } from '#road/subject.ts'
import { post } from './client.ts'

/** Gives the log of a load's cycle to the service, which keeps, reads and records it. The id makes a repeat harmless. */
export function sendCycle(load: SubjectId<'load'>, request: LoadCycleRequest): Promise<EntryKept> {
  return post(`/api/loads/${encodeURIComponent(load)}/cycle`, request)
}
