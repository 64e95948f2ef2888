import type { Facts } from './facts.ts'
import type { Instant } from './instant.ts'
import type { TypedSent } from './kinds.ts'
import type { Look } from './look.ts'
import type { KnownOf } from './known.ts'
import { policyFrom } from './policy.ts'
import { about } from './read-entry.ts'
import type { SubjectId, SubjectKind } from './subject.ts'

/** The subject that holds the limits which a unit has changed. */
export const unitPolicy: SubjectId<'policy'> = 'policy:unit'

/** Asks the record for all that the rules may look at when they judge this entry. */
export async function gatherFacts(look: Look, entry: TypedSent, now: Instant): Promise<Facts> {
  const { subjects, mentions } = about(entry)
  const known = new Map<SubjectId, KnownOf<SubjectKind>>(
    await look.known([unitPolicy, entry.by, ...subjects, ...mentions]),
  )
  return {
    now,
    policy: policyFrom(known.get(unitPolicy) as KnownOf<'policy'> | undefined),
    known: <K extends SubjectKind>(id: SubjectId<K>) => known.get(id) as KnownOf<K> | undefined,
    recallsOfLoad: () => [],
  }
}
