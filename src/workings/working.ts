import type { z } from 'zod'
import { type Problem, problemsOf } from '#units/problem.ts'
import type { Source } from '#units/source.ts'

/**
 * One pure calculation with an identity. The command line, the HTTP API, the reference pages and
 * the bench screen are all made from these fields; units stand in the names of the schema's fields.
 */
interface WorkingDefinition<Input, Output> {
  readonly id: string
  readonly title: string
  readonly group: 'physics' | 'statistics' | 'planning' | 'cost'
  /** What is computed and how, in a few sentences for a reader who wants to check it by hand. */
  readonly method: string
  /** Where the method stops being valid, in one or two sentences. */
  readonly validity: string
  readonly sources: readonly [Source, ...Source[]]
  readonly input: z.ZodType<Input>
  readonly output: z.ZodType<Output>
  /** A worked example; its output is recomputed by the tests. */
  readonly example: { readonly input: unknown; readonly output: unknown }
  /** Total over parsed input. Missing data gives null or 'notEvaluable' in the output, never a guess. */
  readonly work: (input: Input) => Output
}

/** What a working gives for an input from outside. */
export type WorkingResult =
  | { readonly kind: 'output'; readonly output: unknown }
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

/** A working as the registry lists it: its types closed over, its input checked by `run`. */
export interface Working extends Omit<WorkingDefinition<unknown, unknown>, 'work' | 'input' | 'output'> {
  readonly input: z.ZodType
  readonly output: z.ZodType
  readonly run: (raw: unknown) => WorkingResult
}

/** Closes a definition over its types, so that every working can stand in one list. */
export function defineWorking<Input, Output>(definition: WorkingDefinition<Input, Output>): Working {
  const { work, ...rest } = definition
  return Object.freeze({
    ...rest,
    run(raw: unknown): WorkingResult {
      const parsed = definition.input.safeParse(raw)
      if (!parsed.success) return { kind: 'unusable', problems: problemsOf(parsed.error, raw) }
      return { kind: 'output', output: work(parsed.data) }
    },
  })
}
