import { type Constraint, type ConstraintModel, type Literal, not, type Task, type Terms } from './constraint-model.ts'

/** The constraints that values break, counted plainly; none for a solution. Values outside their range count too. */
export function brokenBy(
  model: ConstraintModel,
  values: readonly number[],
): readonly (Constraint | { readonly variable: number })[] {
  const outside = model.lows.flatMap((low, variable) => {
    const value = values[variable] ?? Number.NaN
    return value >= low && value <= (model.highs[variable] ?? low) ? [] : [{ variable }]
  })
  return [...outside, ...model.constraints.filter((constraint) => !isKept(constraint, values))]
}

function isKept(constraint: Constraint, values: readonly number[]): boolean {
  switch (constraint.kind) {
    case 'linear': {
      if (!constraint.when.every((literal) => holds(literal, values))) return true
      const sum = valueOf(constraint.terms, values)
      return sum >= constraint.low && sum <= constraint.high
    }
    case 'anyOf':
      return constraint.literals.some((literal) => holds(literal, values))
    case 'exactlyOne':
      return constraint.literals.filter((literal) => holds(literal, values)).length === 1
    case 'alone':
      return (
        mostAtOnce(
          constraint.tasks.map((task) => ({ ...task, demand: 1 })),
          values,
        ) <= 1
      )
    case 'within':
      return mostAtOnce(constraint.tasks, values) <= constraint.capacity
  }
}

export function holds(literal: Literal, values: readonly number[]): boolean {
  return literal >= 0 ? values[literal] === 1 : values[not(literal)] === 0
}

export function valueOf(terms: Terms, values: readonly number[]): number {
  return terms.reduce((sum, [variable, factor]) => sum + factor * (values[variable] ?? 0), 0)
}

/** The most that tasks take at one time: it is reached where one of them begins. */
function mostAtOnce(tasks: readonly Task[], values: readonly number[]): number {
  const done = tasks
    .filter(({ when, size }) => size > 0 && (when === undefined || holds(when, values)))
    .map(({ start, size, demand = 1 }) => ({ from: values[start] ?? 0, to: (values[start] ?? 0) + size, demand }))
  return Math.max(
    0,
    ...done.map(({ from }) =>
      done.reduce((sum, other) => (other.from <= from && from < other.to ? sum + other.demand : sum), 0),
    ),
  )
}
