import fastifySwagger from '@fastify/swagger'
import { z } from 'zod'
import type { App } from './app-type.ts'
import type { JsonSchema } from './api-types.ts'
import { jsonSchemaOf } from './json-schema-of.ts'

/** Describes the routes in OpenAPI 3.1, from the very schemas that check what comes and goes. */
export async function addOpenApi(app: App, version: string): Promise<void> {
  await app.register(fastifySwagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'nilgrowth',
        version,
        description:
          'The record of a unit that reprocesses its instruments. Entries are added and never changed; facts are always kept, ' +
          "decisions are judged. An aid to trained staff: the maker's instructions, local regulation and licensed practice decide.",
        license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
      },
    },
    transform: ({ schema, url }) => ({ schema: describeParts(schema ?? {}), url }),
  })
  app.get('/openapi.json', { schema: { hide: true } }, async () => app.swagger())
}

const readParts = ['params', 'querystring', 'headers', 'body'] as const

function describeParts(schema: object): object {
  const described: Record<string, unknown> = { ...schema }
  for (const part of readParts) {
    const value = described[part]
    if (value instanceof z.ZodType) described[part] = jsonSchemaOf(value, 'input')
  }
  if ('response' in schema) described['response'] = openContents(schema.response)
  return described
}

/** Answers are described by status, then media type: every Zod schema inside is written out. */
function openContents(value: unknown): unknown {
  if (value instanceof z.ZodType) return jsonSchemaOf(value, 'output') satisfies JsonSchema
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
  return Object.fromEntries(Object.entries(value).map(([name, part]) => [name, openContents(part)]))
}
