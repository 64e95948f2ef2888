import type { EntryId, Exception, SiteId } from '../entry.ts'
import type { Facts } from '../facts.ts'
import { type Instant, instant } from '../instant.ts'
import type { Bodies, KindName, TypedSent } from '../kinds.ts'
import { folds, type KnownOf } from '../known.ts'
import { dayIn } from '../local-day.ts'
import type { Policy } from '../policy.ts'
import type { Step } from '../round.ts'
import type { SubjectId, SubjectKind } from '../subject.ts'

/*
 * A case that is not on record, told as facts that the rules of the record can judge: what is known, the entry that is
 * asked about, and the policy. All that a case does not say is not there.
 */

/** The moment at which every case is decided: cases tell of hours and days before it. */
export const caseNow: Instant = instant(Date.parse('2026-01-15T12:00:00.000Z'))

export function hoursAgo(hours: number): Instant {
  return instant(Date.parse(caseNow) - Math.round(hours * 3_600_000))
}

const caseEntryId = '019bc000-0000-7000-8000-000000000001' as EntryId

/** A state as its fold begins it, with what the case says of it. */
export function caseKnown<K extends SubjectKind>(
  kind: K,
  id: SubjectId<K>,
  state: Partial<KnownOf<K>>,
): KnownOf<K> & { readonly id: SubjectId } {
  return { ...(folds[kind].begin(id) as object), ...state } as KnownOf<K> & { readonly id: SubjectId }
}

export function caseStep<Body>(at: Instant, body: Body): Step<Body> {
  return { ...body, at, entry: caseEntryId, by: 'person:case' }
}

/** The entry that a case asks about. */
export function caseEntry<K extends KindName>(kind: K, body: Bodies[K], exception?: Exception): TypedSent {
  return {
    id: caseEntryId,
    site: 'case' as SiteId,
    kind,
    happenedAt: caseNow,
    by: 'person:case',
    workstation: 'case',
    body,
    ...(exception === undefined ? {} : { exception }),
  } as unknown as TypedSent
}

export function caseFacts(
  policy: Policy,
  known: readonly { readonly id: SubjectId }[],
  more: Partial<Pick<Facts, 'recallsOfLoad' | 'recallsOfMachine' | 'loadsSinceStop' | 'lastBiological'>> = {},
): Facts {
  const byId = new Map<SubjectId, unknown>(known.map((state) => [state.id, state]))
  return {
    now: caseNow,
    policy,
    known: <K extends SubjectKind>(id: SubjectId<K>) => byId.get(id) as KnownOf<K> | undefined,
    dayOf: (moment) => dayIn('UTC', moment),
    recallsOfLoad: () => [],
    recallsOfPack: () => [],
    recallsOfMachine: () => [],
    extentOf: () => undefined,
    loadsSinceStop: () => [],
    loadsBuiltNear: () => [],
    lastBiological: () => null,
    managers: () => [],
    corrected: () => undefined,
    ...more,
  }
}
