import type { SentEntry } from '../entry.ts'
import type { Policy } from '../policy.ts'
import { secondForExceptions, secondForLimitChanges, secondForRecallClosing, signDecisions } from './limits.ts'

/** What must be signed before an entry is kept, besides that it comes from someone who has signed in. */
export interface SignaturesAsked {
  /** Who enters it signs it at that moment. */
  readonly author: boolean
  /** Another person confirms it; the one the entry names, where it names one: who allows an exception. */
  readonly second: 'none' | 'anyone' | SentEntry['by']
}

/** The signatures that the policy asks for under an entry. `nature`: facts are kept as they are, decisions are signed. */
export function signaturesAsked(
  policy: Policy,
  sent: Pick<SentEntry, 'kind' | 'exception'>,
  nature: 'fact' | 'decision',
): SignaturesAsked {
  const set = (limit: typeof signDecisions): boolean => policy.limit(limit).value
  const confirmed =
    (sent.kind === 'recall-closed' && set(secondForRecallClosing)) ||
    (sent.kind === 'limit-changed' && set(secondForLimitChanges))
  const named = sent.exception !== undefined && set(secondForExceptions) ? sent.exception.allowedBy : undefined
  return {
    author: nature === 'decision' && set(signDecisions),
    second: named ?? (confirmed ? 'anyone' : 'none'),
  }
}
