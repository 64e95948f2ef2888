import type { FastifySchemaCompiler } from 'fastify'
import { z } from 'zod'
import { deeperThan, levelsAllowed } from '#units/depth.ts'
import { invariant } from '#units/invariant.ts'
import { problemsOf } from '#units/problem.ts'
import { UnusablePart } from './error-handler.ts'

const parts: Readonly<Record<string, string>> = {
  body: 'body',
  querystring: 'query',
  params: 'address',
  headers: 'header',
}

/** Checks a part of a request by its Zod schema, the only validator there is. */
export const checkBySchema: FastifySchemaCompiler<unknown> = ({ schema, httpPart }) => {
  invariant(schema instanceof z.ZodType, 'every part of a request is described by a Zod schema')
  const part = parts[httpPart ?? 'body'] ?? 'body'
  return (input: unknown) => {
    // First of all, since a schema walks what it reads by recursion.
    if (deeperThan(input, levelsAllowed)) {
      const problem = { field: part, wanted: `at most ${levelsAllowed} levels`, current: 'deeper' }
      return { error: new UnusablePart(part, [problem]) }
    }
    const parsed = schema.safeParse(input)
    return parsed.success ? { value: parsed.data } : { error: new UnusablePart(part, problemsOf(parsed.error, input)) }
  }
}

/** Lets a body through: what reads it later has the schema, and gives an account of each entry by itself. */
export const readAsItIs: FastifySchemaCompiler<unknown> = (part) =>
  part.httpPart === 'body' ? (value: unknown) => ({ value }) : checkBySchema(part)
