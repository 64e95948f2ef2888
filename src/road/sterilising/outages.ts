import type { Instant } from '../instant.ts'

/** A time in which a machine was out of service; null while it still is. */
export interface Outage {
  readonly from: Instant
  readonly until: Instant | null
}

interface Machine {
  readonly service: { readonly state: 'inService' | 'withdrawn'; readonly since: Instant | null }
  readonly outages?: readonly Outage[] | undefined
}

/** A machine that is taken out again while it is out has been out since the first time. */
export function withOutage(outages: readonly Outage[] = [], from: Instant): readonly Outage[] {
  return outages.at(-1)?.until === null ? outages : [...outages, { from, until: null }]
}

export function withReturn(outages: readonly Outage[] = [], until: Instant): readonly Outage[] {
  const last = outages.at(-1)
  return last?.until === null ? [...outages.slice(0, -1), { from: last.from, until }] : outages
}

/** Whether a machine was out of service at a moment, whatever became of it since. */
export function wasOutAt(machine: Machine, moment: Instant): boolean {
  return wasOutDuring(machine, { from: moment, until: moment })
}

/** Whether a machine was out of service at any time between two moments; a state of an older version knows only of now. */
export function wasOutDuring(
  { service, outages }: Machine,
  { from, until }: { readonly from: Instant; readonly until: Instant },
): boolean {
  if (outages === undefined) return service.state === 'withdrawn' && (service.since === null || until >= service.since)
  return outages.some((outage) => until >= outage.from && (outage.until === null || from < outage.until))
}
