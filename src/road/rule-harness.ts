import type { EntryId, Exception, SiteId } from './entry.ts'
import type { Facts, HeldBy } from './facts.ts'
import type { Finding } from './finding.ts'
import type { Instant } from './instant.ts'
import type { Bodies, KindName, TypedSent } from './kinds.ts'
import { folds, type KnownOf } from './known.ts'
import { dayIn } from './local-day.ts'
import { policyFrom } from './policy.ts'
import type { AnyRule } from './rule.ts'
import type { Step } from './round.ts'
import type { LoadKnown } from './sterilising/load-fold.ts'
import type { SubjectId, SubjectKind } from './subject.ts'
import type { RecallExtent } from './tracing/recall-extent.ts'
import type { LimitValue } from './unit/fold.ts'

/*
 * Runs one rule on a few facts. For the tests of rules: what is given, what is entered, what is found.
 */

/** What is known when the rule looks; all that is not given is not there. */
export interface Given {
  readonly known?: readonly { readonly id: SubjectId }[]
  readonly now?: Instant
  readonly limits?: Readonly<Record<string, LimitValue>>
  readonly held?: readonly HeldBy[]
  readonly packHeld?: readonly HeldBy[]
  readonly recallsOfMachine?: readonly SubjectId<'recall'>[]
  readonly extent?: Pick<RecallExtent, 'packs' | 'verdict' | 'repeats'> & Partial<RecallExtent>
  readonly loadsSinceStop?: readonly LoadKnown[]
  readonly loadsBuiltNear?: readonly LoadKnown[]
  readonly lastBiological?: Instant
  readonly managers?: readonly SubjectId<'person'>[]
  readonly corrected?: TypedSent
}

/** A time of the day of all rule tests: `at('09:30')`. */
export function at(time: string): Instant {
  return `2026-11-25T${time}:00.000Z` as Instant
}

/** An entry of the tests, made at 12:00 unless said otherwise. */
export function entered<K extends KindName>(
  kind: K,
  body: Bodies[K],
  rest: { readonly at?: Instant; readonly corrects?: EntryId; readonly exception?: Exception } = {},
): TypedSent {
  const { at: happenedAt = at('12:00'), ...others } = rest
  return {
    id: '019d0000-0000-7000-8000-000000000001' as EntryId,
    site: 'unit-a' as SiteId,
    kind,
    happenedAt,
    by: 'person:ann',
    workstation: 'bench',
    body,
    ...others,
  } as unknown as TypedSent
}

/** A state as its fold begins it, with what the test says of it. */
export function knownAs<K extends SubjectKind>(kind: K, id: SubjectId<K>, state: Partial<KnownOf<K>> = {}): KnownOf<K> {
  return { ...(folds[kind].begin(id) as KnownOf<K>), ...state }
}

/** A step that was done at this time. */
export function step<Body>(time: string, body: Body): Step<Body> {
  return { ...body, at: at(time), entry: '019d0000-0000-7000-8000-00000000000f' as EntryId, by: 'person:ann' }
}

export function findingsOf(rule: AnyRule, given: Given, entry: TypedSent): readonly Finding[] {
  return rule.check(factsOf(given), entry)
}

function factsOf(given: Given): Facts {
  const known = new Map((given.known ?? []).map((state) => [state.id, state]))
  const changed = Object.entries(given.limits ?? {}).map(([limit, value]) => [
    limit,
    { value, reason: 'for this test', by: 'person:ann', at: at('00:00'), entry: entered('unit-opened', unit).id },
  ])
  return {
    now: given.now ?? at('12:00'),
    policy: policyFrom({ id: 'policy:unit', version: 'defaults', changed: Object.fromEntries(changed) }),
    known: <K extends SubjectKind>(id: SubjectId<K>) => known.get(id) as KnownOf<K> | undefined,
    dayOf: (moment) => dayIn('UTC', moment),
    recallsOfLoad: () => given.held ?? [],
    recallsOfPack: () => given.packHeld ?? [],
    recallsOfMachine: () => given.recallsOfMachine ?? [],
    extentOf: () => given.extent as RecallExtent | undefined,
    loadsSinceStop: () => given.loadsSinceStop ?? [],
    loadsBuiltNear: () => given.loadsBuiltNear ?? [],
    lastBiological: () => given.lastBiological ?? null,
    managers: () => given.managers ?? [],
    corrected: () => given.corrected,
  }
}

const unit: Bodies['unit-opened'] = { unit: 'unit:a', name: 'A', demonstration: false, timeZone: 'UTC' }
