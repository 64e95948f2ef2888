import type { z } from 'zod'

/** What a field table needs of a JSON Schema. */
export type JsonSchema = z.core.JSONSchema.BaseSchema

/** A JSON Schema as tables of fields: one table, or one for each of the forms it may take. */
export function fieldTables(schema: JsonSchema): string {
  const forms = schema.oneOf ?? schema.anyOf
  if (forms === undefined) return table(rowsOf(schema, ''))
  return ['One of these forms.', ...forms.filter(isSchema).map((form) => table(rowsOf(form, '')))].join('\n\n')
}

function table(rows: readonly string[]): string {
  return ['| field | type | meaning |', '|---|---|---|', ...rows].join('\n')
}

/** One row for each field, those inside lists and objects below it with their full path. */
function rowsOf(schema: JsonSchema, prefix: string): string[] {
  const required = new Set(schema.required)
  return Object.entries(schema.properties ?? {}).flatMap(([name, field]) => {
    if (!isSchema(field)) return []
    const path = prefix + name
    const needed = required.has(name) ? '' : ', optional'
    const row = `| \`${path}\` | ${cell(typeOf(field) + needed)} | ${cell(meaningOf(field))} |`
    return [row, ...rowsInside(field, path)]
  })
}

function rowsInside(field: JsonSchema, path: string): string[] {
  const { items } = field
  if (isSchema(items)) return rowsOf(items, `${path}[].`)
  const inner = (field.anyOf ?? []).filter(isSchema)
  return [...rowsOf(field, `${path}.`), ...inner.flatMap((form) => rowsOf(form, `${path}.`))]
}

function typeOf(field: JsonSchema): string {
  if (field.const !== undefined) return JSON.stringify(field.const)
  if (field.enum !== undefined) return field.enum.map((value) => JSON.stringify(value)).join(' or ')
  const forms = field.anyOf ?? field.oneOf
  if (forms !== undefined) return forms.filter(isSchema).map(typeOf).join(' or ')
  if (isSchema(field.items)) return `list of ${typeOf(field.items)}`
  return [typeName(field.type), field.format, rangeOf(field)].filter((part) => part !== undefined).join(', ')
}

/** A field that may be null comes as a list of types. */
function typeName(type: string | readonly string[] = 'any'): string {
  return typeof type === 'string' ? type : type.join(' or ')
}

function rangeOf({ type, minimum, maximum, exclusiveMinimum }: JsonSchema): string | undefined {
  // Every integer has the bounds of a safe integer; only bounds that somebody chose are worth a reader's time.
  const low = chosen(type, minimum) ?? exclusiveMinimum
  const high = chosen(type, maximum)
  if (low === undefined) return high === undefined ? undefined : `at most ${high}`
  if (exclusiveMinimum !== undefined) return high === undefined ? `above ${low}` : `above ${low} to ${high}`
  return high === undefined ? `at least ${low}` : `${low} to ${high}`
}

function chosen(type: JsonSchema['type'], bound: number | undefined): number | undefined {
  return type === 'integer' && Math.abs(bound ?? 0) === Number.MAX_SAFE_INTEGER ? undefined : bound
}

function meaningOf(field: JsonSchema): string {
  const fallback = field.default === undefined ? '' : ` (default ${JSON.stringify(field.default)})`
  // A description given before `nullable` stays with the form that is not null.
  const inner = (field.anyOf ?? []).filter(isSchema).find(({ description }) => description !== undefined)
  return `${field.description ?? inner?.description ?? ''}${fallback}`.trim()
}

function cell(text: string): string {
  return text.replaceAll('|', String.raw`\|`)
}

function isSchema(value: unknown): value is JsonSchema {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
