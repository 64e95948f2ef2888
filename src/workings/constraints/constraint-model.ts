/*
 * A model of whole-number variables and constraints, as plain data: pure code writes it, and a solver elsewhere reads it.
 * It names no solver.
 */

/** A variable with two values: its place for `is one`, `not(place)` for `is zero`. */
export type Literal = number

export type Terms = readonly (readonly [variable: number, factor: number])[]

/** Something that begins at a variable and takes so long; when it has a literal, only if that holds. */
export interface Task {
  readonly start: number
  readonly size: number
  readonly when?: Literal | undefined
  /** What it takes of a capacity; one when not said. */
  readonly demand?: number
}

export type Constraint =
  | {
      readonly kind: 'linear'
      readonly terms: Terms
      readonly low: number
      readonly high: number
      readonly when: readonly Literal[]
    }
  | { readonly kind: 'anyOf' | 'exactlyOne'; readonly literals: readonly Literal[] }
  | { readonly kind: 'alone'; readonly tasks: readonly Task[] }
  | { readonly kind: 'within'; readonly tasks: readonly Task[]; readonly capacity: number }

export interface ConstraintModel {
  readonly lows: readonly number[]
  readonly highs: readonly number[]
  /** A value to begin with, of the variables that have one. */
  readonly hints: ReadonlyMap<number, number>
  readonly constraints: readonly Constraint[]
  /** What is to be small; any solution will do when there are no terms. */
  readonly minimise: Terms
}

/** Larger than any value of a model; stands for no limit. */
export const unlimited = 1_000_000_000

/** Writes a model down, one variable and one constraint at a time. */
export class ConstraintDraft {
  readonly #lows: number[] = []
  readonly #highs: number[] = []
  readonly #hints = new Map<number, number>()
  readonly #constraints: Constraint[] = []
  #minimise: Terms = []

  whole(low: number, high: number): number {
    this.#lows.push(low)
    this.#highs.push(high)
    return this.#lows.length - 1
  }

  literal(): Literal {
    return this.whole(0, 1)
  }

  hint(variable: number, value: number): void {
    this.#hints.set(variable, value)
  }

  /** low ≤ Σ factor · variable ≤ high, when every literal holds. */
  linear(terms: Terms, low: number, high: number, when: readonly Literal[] = []): void {
    this.#constraints.push({ kind: 'linear', terms, low, high, when })
  }

  /** `after` is at least `gap` more than `before`, when every literal holds. */
  apart(before: number, after: number, gap: number, when: readonly Literal[] = []): void {
    this.linear(
      [
        [after, 1],
        [before, -1],
      ],
      gap,
      unlimited,
      when,
    )
  }

  atLeast(variable: number, low: number, when: readonly Literal[] = []): void {
    this.linear([[variable, 1]], low, unlimited, when)
  }

  atMost(variable: number, high: number, when: readonly Literal[] = []): void {
    this.linear([[variable, 1]], -unlimited, high, when)
  }

  anyOf(literals: readonly Literal[]): void {
    this.#constraints.push({ kind: 'anyOf', literals })
  }

  exactlyOne(literals: readonly Literal[]): void {
    this.#constraints.push({ kind: 'exactlyOne', literals })
  }

  /** No two of the tasks at the same time. */
  alone(tasks: readonly Task[]): void {
    if (tasks.length > 1) this.#constraints.push({ kind: 'alone', tasks })
  }

  /** Never more than the capacity at one time. */
  within(tasks: readonly Task[], capacity: number): void {
    if (tasks.length > 0) this.#constraints.push({ kind: 'within', tasks, capacity })
  }

  minimise(terms: Terms): void {
    this.#minimise = terms
  }

  model(): ConstraintModel {
    return {
      lows: this.#lows,
      highs: this.#highs,
      hints: this.#hints,
      constraints: this.#constraints,
      minimise: this.#minimise,
    }
  }
}

/** The literal that holds when the other does not. */
export function not(literal: Literal): Literal {
  return -literal - 1
}

/** Σ of literals, each a term: a negated one is 1 − its variable, so it adds to the constant as well. */
export function sumOf(literals: readonly (readonly [Literal, number])[]): {
  readonly terms: Terms
  readonly constant: number
} {
  let constant = 0
  const terms = literals.map(([literal, factor]) => {
    if (literal >= 0) return [literal, factor] as const
    constant += factor
    return [not(literal), -factor] as const
  })
  return { terms, constant }
}
