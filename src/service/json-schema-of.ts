import { z } from 'zod'
import { subjectKinds } from '#road/subject.ts'
import type { JsonSchema } from './api-types.ts'

/**
 * The JSON Schema (2020-12) of a Zod schema. Two things that Zod cannot say are added: the form of a subject's id,
 * and that "any JSON" is any JSON, which Zod writes as a definition that refers to itself.
 */
export function jsonSchemaOf(schema: z.ZodType, io: 'input' | 'output'): JsonSchema {
  const {
    $schema: _,
    $defs: __,
    ...made
  } = z.toJSONSchema(schema, {
    io,
    target: 'draft-2020-12',
    unrepresentable: 'any',
    reused: 'inline',
    override: ({ zodSchema, jsonSchema }) => {
      if (zodSchema instanceof z.ZodCustom) Object.assign(jsonSchema, customSchema(zodSchema))
    },
  })
  return openReferences(made)
}

/** A subject's schema is only a test: which kind it takes is found by asking it. */
function customSchema(schema: z.ZodCustom): JsonSchema {
  const takes = subjectKinds.filter((kind) => schema.safeParse(`${kind}:a`).success)
  if (takes.length === 0 || schema.safeParse('a').success) return {}
  return { type: 'string', pattern: `^(?:${takes.join('|')}):[A-Za-z0-9](?:[A-Za-z0-9._-]{0,62}[A-Za-z0-9])?$` }
}

function openReferences(schema: object): JsonSchema {
  return JSON.parse(JSON.stringify(schema), (_, value: unknown) =>
    typeof value === 'object' && value !== null && '$ref' in value ? {} : value,
  ) as JsonSchema
}
