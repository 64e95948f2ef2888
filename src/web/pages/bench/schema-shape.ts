import type { JsonSchema } from '#service/api-types.ts'

/** How a value of a working's input is asked for. What has no form of its own is written as JSON. */
export type Shape =
  | { readonly ask: 'number'; readonly least: number | undefined; readonly most: number | undefined }
  | { readonly ask: 'choice'; readonly options: readonly string[] }
  | { readonly ask: 'yesNo' }
  | { readonly ask: 'text' }
  /** A column of figures. */
  | { readonly ask: 'numbers' }
  | { readonly ask: 'group'; readonly fields: readonly ShapeField[] }
  | { readonly ask: 'json' }

export interface ShapeField {
  readonly name: string
  /** What it is, in the words of the working. */
  readonly says: string | undefined
  readonly shape: Shape
  readonly needed: boolean
}

/** The form that a JSON Schema asks for. A figure that may also be three is asked for as the example has it. */
export function shapeOf(schema: JsonSchema, example: unknown): Shape {
  const either = listOf(schema['anyOf'])
  if (either.length > 0) {
    const fits = either.find((each) => isOf(each, example))
    return fits === undefined || fits['type'] === 'null' ? { ask: 'json' } : shapeOf(fits, example)
  }
  const options = schema['enum']
  if (Array.isArray(options) && options.every((each) => typeof each === 'string')) return { ask: 'choice', options }
  switch (schema['type']) {
    case 'number':
    case 'integer':
      return { ask: 'number', least: numberIn(schema['minimum']), most: numberIn(schema['maximum']) }
    case 'boolean':
      return { ask: 'yesNo' }
    case 'string':
      return { ask: 'text' }
    case 'array': {
      const items = schema['items']
      const type = isRecord(items) ? items['type'] : undefined
      return type === 'number' || type === 'integer' ? { ask: 'numbers' } : { ask: 'json' }
    }
    case 'object':
      return groupOf(schema, example)
    default:
      return { ask: 'json' }
  }
}

function groupOf(schema: JsonSchema, example: unknown): Shape {
  const properties = schema['properties']
  if (!isRecord(properties)) return { ask: 'json' }
  const needed = new Set(Array.isArray(schema['required']) ? schema['required'] : [])
  const values = isRecord(example) ? example : {}
  const fields = Object.entries(properties).flatMap(([name, own]) =>
    isRecord(own)
      ? [{ name, says: textIn(own['description']), shape: shapeOf(own, values[name]), needed: needed.has(name) }]
      : [],
  )
  return { ask: 'group', fields }
}

function isOf(schema: JsonSchema, value: unknown): boolean {
  switch (schema['type']) {
    case 'number':
    case 'integer':
      return typeof value === 'number'
    case 'string':
      return typeof value === 'string'
    case 'object':
      return isRecord(value)
    case 'array':
      return Array.isArray(value)
    case 'null':
      return value === null
    default:
      return false
  }
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function listOf(value: unknown): readonly JsonSchema[] {
  return Array.isArray(value) ? value.filter(isRecord) : []
}
const numberIn = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined)
const textIn = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined)
