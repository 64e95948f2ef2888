import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Answer, RunningService } from '../support/running-service.ts'

/** The present of the tests, in a unit whose clocks show UTC. */
export const present = '2026-06-10T18:00:00.000Z'

/** A moment of that day, `08:15`. */
export function at(clock: string): string {
  return `2026-06-10T${clock}:00.000Z`
}

export interface Sending {
  readonly id?: string
  readonly site?: string
  readonly by?: SubjectId<'person'>
  readonly corrects?: string
  readonly exception?: unknown
}

/** An entry as a screen would send it. */
export function entryOf<K extends KindName>(kind: K, clock: string, body: Bodies[K], sending: Sending = {}) {
  return {
    id: v7(),
    site: 'unit',
    kind,
    happenedAt: at(clock),
    by: 'person:ada',
    workstation: 'Test bench',
    body,
    ...sending,
  }
}

/** Records one entry. */
export function record<K extends KindName>(
  service: RunningService,
  kind: K,
  clock: string,
  body: Bodies[K],
  sending: Sending = {},
): Promise<Answer> {
  return service.ask('POST', '/api/entries', entryOf(kind, clock, body, sending))
}

/** Opens a unit with one person, Ada, who does everything. */
export async function openUnit(service: RunningService): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Ada' }
  const answer = await service.ask('POST', '/api/unit', choice)
  if (answer.status !== 202) throw new Error(`the unit was not opened: ${JSON.stringify(answer.body)}`)
}

export async function headOf(service: RunningService): Promise<number> {
  const { body } = await service.ask('GET', '/api/health')
  return (body as { head: number }).head
}
