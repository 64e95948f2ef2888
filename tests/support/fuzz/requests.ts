import * as fc from 'fast-check'
import type { z } from 'zod'
import { entryKinds } from '#road/kinds.ts'
import { topics } from '#road/deciding/topics.ts'
import { workings } from '#workings/registry.ts'
import type { JsonSchema } from '#service/api-types.ts'
import { jsonSchemaOf } from '#service/json-schema-of.ts'
import { oddTexts } from './odd-values.ts'
import { type KnownTexts, spoilt, valuesOf } from './schema-values.ts'

/** One request to a route, as it goes over the wire. */
export interface FuzzRequest {
  readonly route: string
  readonly method: string
  readonly path: string
  readonly headers: Readonly<Record<string, string>>
  readonly body: string | Uint8Array<ArrayBuffer> | undefined
}

export interface OpenApi {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>
}

interface Operation {
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly schema: JsonSchema }[]
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: JsonSchema }>> }
}

interface To {
  readonly method: string
  readonly path: string
  readonly operation: Operation
  readonly setting: Setting
}

interface Setting {
  readonly known: KnownTexts
  /** Of one that nobody has used. */
  readonly newEntryId: () => string
  readonly now: () => string
}

type Requests = fc.Arbitrary<FuzzRequest>

/** Requests to every operation of the document: by its schemas, then often with something wrong in one place. */
export function requestsOf(document: OpenApi, setting: Setting): readonly Requests[] {
  return Object.entries(document.paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(([method, operation]) =>
      path === '/api/workings/{id}'
        ? fc
            .constantFrom(...workings)
            .chain(({ id, input }) => requestsToWorking(id, input, method, operation, setting))
        : requestsTo({ method: method.toUpperCase(), path, operation, setting }),
    ),
  )
}

/** What the document calls any JSON is what the working asks for. */
function requestsToWorking(
  id: string,
  input: z.ZodType,
  method: string,
  { requestBody }: Operation,
  setting: Setting,
): Requests {
  const schema = jsonSchemaOf(input, 'input')
  const operation = requestBody === undefined ? {} : { requestBody: { content: { 'application/json': { schema } } } }
  return requestsTo({ method: method.toUpperCase(), path: `/api/workings/${id}`, operation, setting })
}

function requestsTo({ method, path, operation, setting }: To): Requests {
  const route = `${method} ${path}`
  const parameters = operation.parameters ?? []
  const of = (where: string) => parameters.filter((each) => each.in === where)
  const text = (schema: JsonSchema): fc.Arbitrary<string> =>
    fc.oneof({ arbitrary: valuesOf(schema, setting.known).map(String), weight: 4 }, oddTexts)
  const address = fc
    .tuple(...of('path').map(({ name, schema }) => text(schema).map((value) => [name, value] as const)))
    .map((pairs) => pairs.reduce((made, [name, value]) => made.replace(`{${name}}`, encoded(value)), path))
  const query = fc
    .record(Object.fromEntries(of('query').map(({ name, schema }) => [name, text(schema)])), { requiredKeys: [] })
    .chain((pairs) => fc.tuple(fc.constant(pairs), fc.oneof({ arbitrary: fc.constant(''), weight: 9 }, oddQueries)))
    .map(([pairs, odd]) => [...Object.entries(pairs).map(([name, value]) => `${name}=${encoded(value ?? '')}`), odd])
    .map((parts) => parts.filter((part) => part !== '').join('&'))
  return fc.tuple(address, query, bodiesOf(route, operation, setting)).map(([to, asked, { headers, body }]) => ({
    route,
    method,
    path: asked === '' ? to : `${to}?${asked}`,
    headers,
    body,
  }))
}

/** What a text cannot be in an address is left out of it, as a browser would. */
function encoded(text: string): string {
  return encodeURIComponent(text.toWellFormed())
}

const oddQueries = fc.constantFrom(
  'a',
  'limit=1&limit=2',
  'x[y]=z',
  '__proto__[a]=b',
  '%',
  '%00',
  '=',
  '&&&',
  'after=&after=',
)

type Sent = Pick<FuzzRequest, 'headers' | 'body'>

function bodiesOf(route: string, operation: Operation, setting: Setting): fc.Arbitrary<Sent> {
  const content = Object.entries(operation.requestBody?.content ?? {})
  const [found] = content
  if (found === undefined) return fc.constant({ headers: {}, body: undefined })
  const [type, { schema }] = found
  if (type !== 'application/json') {
    return fc.uint8Array({ maxLength: 2000 }).map((bytes) => ({ headers: { 'content-type': 'text/csv' }, body: bytes }))
  }
  const fitting = valuesFor(route, schema, setting)
  const value = fc.oneof({ arbitrary: fitting, weight: 2 }, { arbitrary: fitting.chain(spoilt), weight: 3 })
  const json = value.map((each): Sent => ({
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(each),
  }))
  return fc.oneof({ arbitrary: json, weight: 12 }, json.chain(brokenOnTheWay))
}

/** What the document calls any JSON has a schema of its own, by kind and by topic. */
function valuesFor(route: string, schema: JsonSchema, { known, newEntryId, now }: Setting): fc.Arbitrary<unknown> {
  switch (route) {
    case 'POST /api/entries':
    case 'POST /api/entries/judge': {
      const entry = fc.constantFrom(...entryKinds).chain(({ kind, body }) =>
        valuesOf(jsonSchemaOf(body, 'input'), known).map((made) => ({
          id: newEntryId(),
          site: 'unit',
          kind,
          happenedAt: now(),
          by: 'person:self',
          workstation: 'Fuzz',
          body: made,
        })),
      )
      return fc.oneof({ arbitrary: entry, weight: 6 }, valuesOf(schema, known), fc.array(entry, { maxLength: 3 }))
    }
    case 'POST /api/decide':
      return fc
        .constantFrom(...topics)
        .chain(({ topic, given }) =>
          valuesOf(jsonSchemaOf(given, 'input'), known).map((made) => ({ topic, given: made })),
        )
    default:
      return valuesOf(schema, known)
  }
}

/** A good body that suffers on its way, or is not what its headers say. */
function brokenOnTheWay({ headers, body }: Sent): fc.Arbitrary<Sent> {
  const text = String(body)
  return fc.constantFrom<Sent>(
    { headers, body: text.slice(0, text.length / 2) },
    { headers, body: '' },
    { headers, body: `${text}${text}` },
    { headers, body: text.replace('{', '{"__proto__":{"a":1},') },
    { headers, body: '['.repeat(20_000) },
    { headers, body: Uint8Array.of(0xff, 0xfe, 0x00, 0xd8) },
    { headers: { 'content-type': 'text/plain' }, body: text },
    { headers: { 'content-type': 'application/x-www-form-urlencoded' }, body: 'a=b' },
    { headers: { 'content-type': 'application/json; charset=utf-16' }, body: text },
    { headers: { ...headers, 'content-encoding': 'gzip' }, body: text },
    { headers: { ...headers, origin: 'https://elsewhere.example' }, body: text },
  )
}
