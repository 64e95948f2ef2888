import * as fc from 'fast-check'
import type { JsonSchema } from '#service/api-types.ts'
import { oddNumbers, oddTexts } from './odd-values.ts'

/** What a text of a certain form is drawn from, where there is something on record that has it. */
export type KnownTexts = (pattern: string) => readonly string[]

type Values = fc.Arbitrary<unknown>

interface Parts {
  readonly type?: string
  readonly enum?: readonly unknown[]
  readonly const?: unknown
  readonly anyOf?: readonly JsonSchema[]
  readonly oneOf?: readonly JsonSchema[]
  readonly allOf?: readonly JsonSchema[]
  readonly properties?: Readonly<Record<string, JsonSchema>>
  readonly required?: readonly string[]
  readonly additionalProperties?: JsonSchema | boolean
  readonly propertyNames?: JsonSchema
  readonly items?: JsonSchema
  readonly prefixItems?: readonly JsonSchema[]
  readonly minItems?: number
  readonly maxItems?: number
  readonly minLength?: number
  readonly maxLength?: number
  readonly minimum?: number
  readonly maximum?: number
  readonly exclusiveMinimum?: number
  readonly exclusiveMaximum?: number
  readonly pattern?: string
}

/** Values as a JSON Schema describes them: mostly fitting, at its edges too. */
export function valuesOf(schema: JsonSchema, known: KnownTexts): Values {
  const parts = schema as Parts
  if (parts.const !== undefined) return fc.constant(parts.const)
  if (parts.enum !== undefined) return fc.constantFrom(...parts.enum)
  const choices = parts.anyOf ?? parts.oneOf
  if (choices !== undefined) return fc.oneof(...choices.map((each) => valuesOf(each, known)))
  switch (parts.type) {
    case 'string':
      return texts(parts, known)
    case 'number':
    case 'integer':
      return numbers(parts)
    case 'boolean':
      return fc.boolean()
    case 'null':
      return fc.constant(null)
    case 'array':
      return arrays(parts, known)
    case 'object':
      return objects(parts, known)
    default:
      return fc.jsonValue({ maxDepth: 2 })
  }
}

function texts({ pattern, allOf = [], minLength = 0, maxLength = 60 }: Parts, known: KnownTexts): Values {
  const first = pattern ?? (allOf[0] as Parts | undefined)?.pattern
  if (first === undefined) {
    const plain = fc.string({ minLength, maxLength: Math.min(maxLength, minLength + 40) })
    return fc.oneof(plain, fc.string({ unit: 'grapheme', minLength, maxLength: Math.min(maxLength, minLength + 20) }))
  }
  const formed = fc.stringMatching(new RegExp(first)).map((text) => (allOf.length > 0 ? text.toLowerCase() : text))
  const there = known(first)
  return there.length === 0 ? formed : fc.oneof({ arbitrary: fc.constantFrom(...there), weight: 4 }, formed)
}

function numbers({ type, minimum, maximum, exclusiveMinimum, exclusiveMaximum }: Parts): Values {
  const low = minimum ?? exclusiveMinimum ?? -1000
  const high = Math.max(low, maximum ?? exclusiveMaximum ?? 10_000)
  const whole = fc.integer({ min: Math.ceil(low), max: Math.max(Math.ceil(low), Math.floor(high)) })
  const edges = fc.constantFrom(low, high)
  return type === 'integer'
    ? fc.oneof(whole, edges)
    : fc.oneof(whole, edges, fc.double({ min: low, max: high, noNaN: true }))
}

function arrays({ items, prefixItems, minItems = 0, maxItems = 6 }: Parts, known: KnownTexts): Values {
  if (prefixItems !== undefined) return fc.tuple(...prefixItems.map((each) => valuesOf(each, known)))
  const most = Math.max(minItems, Math.min(maxItems, minItems + 5))
  return fc.array(valuesOf(items ?? {}, known), { minLength: minItems, maxLength: most })
}

function objects({ properties, required = [], additionalProperties, propertyNames }: Parts, known: KnownTexts): Values {
  if (properties !== undefined) {
    const fields = Object.fromEntries(Object.entries(properties).map(([name, each]) => [name, valuesOf(each, known)]))
    return fc.record(fields, { requiredKeys: required.filter((name) => name in fields) })
  }
  const names = valuesOf({ type: 'string', ...propertyNames }, known) as fc.Arbitrary<string>
  const value = typeof additionalProperties === 'object' ? additionalProperties : {}
  return fc.dictionary(names, valuesOf(value, known), { maxKeys: 4 })
}

/** The same value with something wrong in one place of it. */
export function spoilt(value: unknown): Values {
  return fc
    .tuple(fc.constantFrom(...placesOf(value)), fc.oneof(oddTexts, oddNumbers, oddShapes), fc.nat(3))
    .map(([place, odd, way]) => replaced(value, place, odd, way))
}

const oddShapes: Values = fc.constantFrom<unknown>(
  null,
  [],
  {},
  true,
  [[[]]],
  { $ne: null },
  // What a careless copy would take for the object's own nature; `JSON.parse` makes it a field like any other.
  JSON.parse('{"__proto__": {"roles": ["manager"]}}') as unknown,
  { constructor: { prototype: { isAdmin: true } } },
  { toString: 'x', valueOf: 'y', length: -1 },
)

type Place = readonly (string | number)[]

function placesOf(value: unknown, at: Place = []): readonly [Place, ...Place[]] {
  if (typeof value !== 'object' || value === null) return [at]
  const inside = Object.entries(value).slice(0, 30)
  return [at, ...inside.flatMap(([name, each]) => placesOf(each, [...at, name]))]
}

function replaced(value: unknown, [name, ...rest]: Place, odd: unknown, way: number): unknown {
  if (name === undefined) {
    if (way === 1 && Array.isArray(value)) return [...(value as unknown[]), odd]
    if (way === 2 && typeof value === 'object' && value !== null) return { ...value, unexpected: odd }
    return odd
  }
  if (typeof value !== 'object' || value === null) return odd
  if (way === 3 && rest.length === 0) {
    return Object.fromEntries(Object.entries(value).filter(([each]) => each !== String(name)))
  }
  const before = Object.entries(value).map(
    ([each, inside]) => [each, each === String(name) ? replaced(inside, rest, odd, way) : (inside as unknown)] as const,
  )
  return Array.isArray(value) ? before.map(([, inside]) => inside) : Object.fromEntries(before)
}
