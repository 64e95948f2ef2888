import type { TypedSent } from './kinds.ts'
import type { Facts } from './facts.ts'
import { type Finding, stands } from './finding.ts'
import { kindNamed } from './read-entry.ts'
import type { Judged } from './road.ts'
import type { AnyRule } from './rule.ts'

/**
 * Runs the rules on an entry. A decision is refused when a finding stands against it, unless a named
 * person excepts that very rule and the rule may be excepted. A fact is never refused.
 */
export function judge(rules: readonly AnyRule[], facts: Facts, entry: TypedSent): Judged {
  const findings = rules.flatMap((rule) => rule.check(facts, entry))
  const excepted = new Set(entry.exception?.rules)
  const mayBeExcepted = new Set(rules.filter((rule) => rule.exceptionAllowed).map((rule) => rule.id))
  const against = findings
    .filter(stands)
    .filter((finding) => !(excepted.has(finding.rule) && mayBeExcepted.has(finding.rule)))
  return {
    policy: facts.policy.version,
    findings: findings satisfies readonly Finding[],
    refused: kindNamed(entry.kind)?.nature === 'decision' && against.length > 0,
  }
}
