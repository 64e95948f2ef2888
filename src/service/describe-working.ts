import type { Working } from '#workings/working.ts'
import type { WorkingDescription } from './api-types.ts'
import { jsonSchemaOf } from './json-schema-of.ts'

/** A working as data: all that a form needs. */
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
    input: jsonSchemaOf(working.input, 'input'),
    output: jsonSchemaOf(working.output, 'output'),
    example,
  }
}
