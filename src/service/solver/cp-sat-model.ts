import type { CpModelProto } from 'or-tools-wasm/cp-sat'
import type { Constraint, ConstraintModel, Task } from '#workings/constraints/constraint-model.ts'

type ConstraintProto = NonNullable<CpModelProto['constraints']>[number]

/** Translates a model into the one that the solver reads. */
export function cpSatModel({ lows, highs, hints, constraints, minimise }: ConstraintModel): CpModelProto {
  const written: ConstraintProto[] = []
  for (const constraint of constraints) writeConstraint(written, constraint)
  return {
    variables: lows.map((low, index) => ({ domain: [low, highs[index] ?? low] })),
    constraints: written,
    ...(minimise.length === 0
      ? {}
      : { objective: { vars: minimise.map(([variable]) => variable), coeffs: minimise.map(([, factor]) => factor) } }),
    ...(hints.size === 0 ? {} : { solutionHint: { vars: [...hints.keys()], values: [...hints.values()] } }),
  }
}

function writeConstraint(written: ConstraintProto[], constraint: Constraint): void {
  switch (constraint.kind) {
    case 'linear': {
      const { terms, low, high, when } = constraint
      written.push({
        ...(when.length === 0 ? {} : { enforcementLiteral: [...when] }),
        linear: {
          vars: terms.map(([variable]) => variable),
          coeffs: terms.map(([, factor]) => factor),
          domain: [low, high],
        },
      })
      return
    }
    case 'anyOf':
      written.push({ boolOr: { literals: [...constraint.literals] } })
      return
    case 'exactlyOne':
      written.push({ exactlyOne: { literals: [...constraint.literals] } })
      return
    case 'alone':
      written.push({ noOverlap: { intervals: constraint.tasks.map((task) => writeTask(written, task)) } })
      return
    case 'within':
      written.push({
        cumulative: {
          capacity: { offset: constraint.capacity },
          intervals: constraint.tasks.map((task) => writeTask(written, task)),
          demands: constraint.tasks.map(({ demand = 1 }) => ({ offset: demand })),
        },
      })
  }
}

/** Writes the interval of a task; gives its place. */
function writeTask(written: ConstraintProto[], { start, size, when }: Task): number {
  written.push({
    ...(when === undefined ? {} : { enforcementLiteral: [when] }),
    interval: {
      start: { vars: [start], coeffs: [1] },
      size: { offset: size },
      end: { vars: [start], coeffs: [1], offset: size },
    },
  })
  return written.length - 1
}
