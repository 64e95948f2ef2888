import { z } from 'zod'
import { citeSource } from '#units/source.ts'
import type { Stage } from './kind.ts'
import { entryKinds } from './kinds.ts'
import { limits } from './limits.ts'
import type { Limit } from './policy.ts'
import { rules } from './rules.ts'

/* The reference pages of the road, in Markdown, made from the very lists that the program runs on. */

const aid =
  'This program is an aid to trained staff. The instructions of the maker, local regulation and licensed practice come first.'

const stageTitles: Readonly<Record<Stage, string>> = {
  unit: 'The unit',
  people: 'People',
  catalogue: 'Catalogue',
  cleaning: 'Cleaning',
  packing: 'Packing',
  sterilising: 'Sterilising',
  baths: 'Baths',
  consumables: 'Consumables',
  storing: 'Storing',
  operating: 'Operating',
  wounds: 'Wounds',
  tracing: 'Tracing and recall',
}

/** Every rule in the order in which it is asked. */
export function rulesPage(): string {
  const natures = new Map<string, 'fact' | 'decision'>(entryKinds.map((kind) => [kind.kind, kind.nature]))
  const rows = rules.map((rule) => {
    const everything = rule.on.length === entryKinds.length
    const on = everything ? 'every entry' : rule.on.map((kind) => `\`${kind}\``).join(', ')
    const refuses = rule.on.some((kind) => natures.get(kind) === 'decision') ? 'refuses' : 'alarms'
    const exception = rule.exceptionAllowed ? ', unless excepted by name' : ''
    return row([
      `\`${rule.id}\``,
      rule.says,
      on,
      everything ? 'marks, or refuses a decision' : `${refuses}${exception}`,
    ])
  })
  return page('Rules', [
    aid,
    'A rule looks at what is known and at one entry. A fact is always kept: what a rule finds is shown with it. A decision is refused when a finding stops it or when something needed cannot be evaluated.',
    table(['Rule', 'Says', 'Looks at', 'What it does'], rows),
  ])
}

/** Every kind of entry, by the stage of the loop. */
export function entriesPage(): string {
  const stages = [...new Set(entryKinds.map((kind) => kind.stage))]
  const sections = stages.flatMap((stage) => [
    `## ${stageTitles[stage]}`,
    ...entryKinds
      .filter((kind) => kind.stage === stage)
      .flatMap((kind) => [
        `### ${kind.title}`,
        `\`${kind.kind}\`, a ${kind.nature}.`,
        table(['Field', 'Wanted', 'Needed'], fieldsOf(kind.body)),
      ]),
  ])
  return page('Entries', [
    'An entry says that something happened or was decided. It is written once; what was entered wrongly is corrected by a later entry, and both stay.',
    ...sections,
  ])
}

/** Every limit with its source; what nobody has confirmed says so. */
export function limitsPage(): string {
  const rows = limits.map((limit) =>
    row([`\`${limit.id}\``, limit.title, valueOf(limit), allowedOf(limit), citeSource(limit.source)]),
  )
  return page('Limits', [
    aid,
    'Each limit may be changed by the unit, with a reason, within the bounds that are safe to set. The change is kept and is cited from then on.',
    table(['Limit', 'What it is', 'As delivered', 'May be set to', 'Source'], rows),
  ])
}

function valueOf(limit: Limit): string {
  if (typeof limit.value === 'boolean') return limit.value ? 'yes' : 'no'
  return `${limit.value} ${limit.unit}`
}

function allowedOf(limit: Limit): string {
  const { allowed } = limit
  if (allowed === undefined) return typeof limit.value === 'boolean' ? 'yes or no' : 'anything'
  return 'oneOf' in allowed ? allowed.oneOf.join(' or ') : `${allowed.from} to ${allowed.to}`
}

interface JsonSchema {
  readonly type?: string | readonly string[]
  readonly description?: string
  readonly const?: unknown
  readonly enum?: readonly unknown[]
  readonly properties?: Readonly<Record<string, JsonSchema>>
  readonly required?: readonly string[]
  readonly items?: JsonSchema
  readonly oneOf?: readonly JsonSchema[]
  readonly anyOf?: readonly JsonSchema[]
}

/** The rows of a body's table. A field that the schema language cannot say is a subject or a kept file. */
function fieldsOf(body: z.ZodType): string[] {
  const schema = z.toJSONSchema(body, { unrepresentable: 'any', io: 'input' }) as JsonSchema
  const needed = new Set(schema.required)
  return Object.entries(schema.properties ?? {}).map(([name, field]) =>
    row([`\`${name}\``, wantedOf(field), needed.has(name) ? 'yes' : 'no']),
  )
}

function wantedOf(field: JsonSchema): string {
  if (field.const !== undefined) return `\`${JSON.stringify(field.const)}\``
  if (field.enum !== undefined) return field.enum.map((value) => `\`${String(value)}\``).join(', ')
  const choices = field.oneOf ?? field.anyOf
  if (choices !== undefined) return [...new Set(choices.map(wantedOf))].join(' or ')
  if (Array.isArray(field.type)) return field.type.map((type: string) => wantedOf({ type })).join(' or ')
  switch (field.type) {
    case 'array':
      return `list of ${wantedOf(field.items ?? {})}`
    case 'object':
      return field.properties === undefined ? 'fields' : `{ ${Object.keys(field.properties).join(', ')} }`
    case 'null':
      return 'nothing'
    case undefined:
      return 'the id of a subject'
    default:
      return String(field.type)
  }
}

function page(title: string, parts: readonly string[]): string {
  return `# ${title}\n\n${parts.join('\n\n')}\n`
}

function table(heads: readonly string[], rows: readonly string[]): string {
  return [row(heads), row(heads.map(() => '---')), ...rows].join('\n')
}

function row(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`
}
