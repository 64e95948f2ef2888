import type { Facts } from './facts.ts'
import type { Finding } from './finding.ts'
import type { KindName, TypedSent } from './kinds.ts'

/**
 * One rule of the policy: it looks at what is known and at the entry, and says what it finds.
 * It never throws and never asks for the time.
 */
export interface Rule<Kind extends KindName = KindName> {
  readonly id: string
  /** One sentence: "A pack is released only if …". */
  readonly says: string
  /** The kinds of entry that it looks at. */
  readonly on: readonly Kind[]
  /** Whether a named person may let a decision stand in spite of this rule, with a reason. */
  readonly exceptionAllowed: boolean
  readonly check: (facts: Facts, entry: Extract<TypedSent, { kind: Kind }>) => readonly Found[]
}

/** A finding as a rule gives it: `defineRule` adds the rule's name. */
export type Found = Omit<Finding, 'rule'>

/** A rule as the list holds it. */
export interface AnyRule extends Omit<Rule, 'check'> {
  readonly check: (facts: Facts, entry: TypedSent) => readonly Finding[]
}

/** Closes a rule over the kinds it looks at; an entry of another kind gives no finding. */
export function defineRule<Kind extends KindName>(rule: Rule<Kind>): AnyRule {
  const looksAt = (entry: TypedSent): entry is Extract<TypedSent, { kind: Kind }> =>
    (rule.on as readonly string[]).includes(entry.kind)
  return Object.freeze({
    ...rule,
    check: (facts: Facts, entry: TypedSent) =>
      looksAt(entry) ? rule.check(facts, entry).map((found) => ({ rule: rule.id, ...found })) : [],
  })
}
