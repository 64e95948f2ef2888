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

/** Keeps the log of a machine and gives its digest. */
export async function keepLog(service: RunningService, text: string): Promise<string> {
  const headers = { 'content-type': 'text/csv' }
  const response = await fetch(`${service.url}/api/attachments`, { method: 'PUT', headers, body: text })
  if (response.status !== 200) throw new Error(`the log was not kept: ${response.status}`)
  return ((await response.json()) as { digest: string }).digest
}

/** A unit with one set of one device, sent on its first round: what a load or a wash is made of. */
export async function furnishOneSet(
  service: RunningService,
  device: Partial<Bodies['device-registered']> = {},
): Promise<void> {
  await record(service, 'device-registered', '01:01', {
    device: 'device:d',
    name: 'Scissors',
    contact: 'critical',
    steam: 'allowed',
    lumens: [],
    parts: 1,
    insulated: false,
    optic: false,
    singleUse: false,
    ...device,
  })
  const countSheet = [{ device: 'device:d' as const, count: 1 }]
  await record(service, 'set-registered', '01:02', { set: 'set:a', name: 'The set', countSheet })
  await record(service, 'reprocessing-started', '01:05', { round: 'round:a', set: 'set:a', because: 'newSet' })
}
