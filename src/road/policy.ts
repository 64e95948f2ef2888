import type { Source } from '#units/source.ts'
import type { Instant } from './instant.ts'
import type { PolicyKnown, LimitValue } from './unit/fold.ts'

/** One number or choice of the policy, with where it comes from. Every limit may be changed by the unit, with a reason. */
export interface Limit<Value extends LimitValue = LimitValue> {
  readonly id: string
  readonly title: string
  readonly unit: string
  readonly value: Value
  readonly source: Source
  /** What a unit may set it to. A yes or no needs none. */
  readonly allowed?: { readonly from: number; readonly to: number } | { readonly oneOf: readonly string[] }
}

/** The policy in force: the defaults, and what this unit has changed. */
export interface Policy {
  readonly version: string
  /** The value of a limit in force, and its source: a changed limit cites the change. */
  readonly limit: <Value extends LimitValue>(limit: Limit<Value>) => { readonly value: Value; readonly source: Source }
}

export function policyFrom(known: PolicyKnown | undefined): Policy {
  return {
    version: known?.version ?? 'defaults',
    limit<Value extends LimitValue>(limit: Limit<Value>) {
      const change = known?.changed[limit.id]
      // A change whose type is not that of the default was refused when it was entered.
      if (change === undefined || typeof change.value !== typeof limit.value) {
        return { value: limit.value, source: limit.source }
      }
      return {
        value: change.value as Value,
        source: { title: `Changed by this unit: ${change.reason}`, clause: change.entry, status: 'proposal' as const },
      }
    },
  }
}

/** The policy that was in force at a moment: what was done then is judged by it, whatever was changed since. */
export function policyAt(known: PolicyKnown | undefined, at: Instant): Policy {
  if (known?.history === undefined) return policyFrom(known)
  const until = known.history.filter((change) => change.at <= at)
  return policyFrom({
    id: known.id,
    version: until.at(-1)?.entry ?? 'defaults',
    changed: Object.fromEntries(until.map(({ limit, ...change }) => [limit, change])),
  })
}
