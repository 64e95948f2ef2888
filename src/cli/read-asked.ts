import { type Problem, problemsOf } from '#units/problem.ts'
import { Asked } from '#road/deciding/decide.ts'

export type AskedOrProblems =
  | { readonly kind: 'asked'; readonly asked: Asked }
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

/** Checks that a value is a case: a topic and the facts given. */
export function readAsked(value: unknown): AskedOrProblems {
  const checked = Asked.safeParse(value)
  return checked.success
    ? { kind: 'asked', asked: checked.data }
    : { kind: 'unusable', problems: problemsOf(checked.error, value) }
}
