import type { z } from 'zod'
import { type Problem, problemsOf } from '#units/problem.ts'
import type { Source } from '#units/source.ts'
import type { Finding } from '../finding.ts'

/*
 * A question that can be put without a record: the known facts and the decision asked. The answer comes from
 * the very functions that the rules use, so that a case worked at a desk and one met on a screen end the same way.
 */

/** What is decided, in one word of the topic's own list, and why. */
export interface Decided {
  readonly decision: string
  readonly findings: readonly Finding[]
}

interface TopicDefinition<Given> {
  /** Its name in a case file: `release`, `route`, `bath-use`. */
  readonly topic: string
  readonly title: string
  /** Every decision that it can come to, with what it means. */
  readonly decisions: Readonly<Record<string, string>>
  readonly given: z.ZodType<Given>
  readonly sources: readonly [Source, ...Source[]]
  /** A worked case, recomputed by the tests. */
  readonly example: { readonly given: unknown; readonly decision: string }
  readonly decide: (given: Given) => Decided
}

export type DecideResult =
  | ({ readonly kind: 'decided' } & Decided)
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

/** A topic as the list holds it, its facts checked by `run`. */
export interface Topic extends Omit<TopicDefinition<unknown>, 'given' | 'decide'> {
  readonly given: z.ZodType
  readonly run: (raw: unknown) => DecideResult
}

/** Closes a topic over the type of its facts. */
export function defineTopic<Given>(definition: TopicDefinition<Given>): Topic {
  const { decide, ...rest } = definition
  return Object.freeze({
    ...rest,
    run(raw: unknown): DecideResult {
      const parsed = definition.given.safeParse(raw)
      if (!parsed.success) return { kind: 'unusable', problems: problemsOf(parsed.error, raw) }
      return { kind: 'decided', ...decide(parsed.data) }
    },
  })
}
