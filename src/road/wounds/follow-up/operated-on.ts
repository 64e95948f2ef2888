import type { Instant } from '../../instant.ts'
import type { CaseKnown } from '../../operating/fold.ts'

/** When the operation began, by the record of the case; null while none is recorded. */
export function operatedOn(operation: Pick<CaseKnown, 'recorded'>): Instant | null {
  return operation.recorded?.startedAt ?? null
}
