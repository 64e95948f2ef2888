import { z } from 'zod'
import type { Working } from '#workings/working.ts'

/** A working as data: what the list, the pages and other programs need to know to use it. */
export interface WorkingDescription {
  readonly id: string
  readonly title: string
  readonly group: Working['group']
  readonly method: string
  readonly validity: string
  readonly sources: Working['sources']
  readonly input: JsonSchema
  readonly output: JsonSchema
  readonly example: Working['example']
}

export type JsonSchema = z.core.JSONSchema.BaseSchema

/** Describes a working, its schemas as JSON Schema made from the very schemas that check it. */
export function describeWorking(working: Working): WorkingDescription {
  const { id, title, group, method, validity, sources, example } = working
  return {
    id,
    title,
    group,
    method,
    validity,
    sources,
    // A field with a default may be left out of an input and is always there in an output.
    input: z.toJSONSchema(working.input, { io: 'input' }),
    output: z.toJSONSchema(working.output, { io: 'output' }),
    example,
  }
}
