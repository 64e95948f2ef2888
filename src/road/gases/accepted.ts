import type { Found } from '../rule.ts'
import type { Decided } from '../deciding/topic.ts'

/** Shape of an answer whose findings carry the name of the topic as their rule. */
export function decided(rule: string, decision: string, found: readonly Found[]): Decided {
  return { decision, findings: found.map((each) => ({ rule, ...each })) }
}
