import type { InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import type { LookBack } from '#service/api-types.ts'

/** What was stated and done in an investigation after it was closed. */
export function addedSince(
  now: InvestigationKnown,
  { investigation: then }: LookBack,
): Pick<InvestigationKnown, 'hypotheses' | 'actions'> {
  const before = new Set([...then.hypotheses, ...then.actions].map(({ entry }) => entry))
  return {
    hypotheses: now.hypotheses.filter(({ entry }) => !before.has(entry)),
    actions: now.actions.filter(({ entry }) => !before.has(entry)),
  }
}
