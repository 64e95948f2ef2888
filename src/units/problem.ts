import type { z } from 'zod'

/** One thing wrong with an input: where, what was wanted, what came. */
export interface Problem {
  readonly field: string
  readonly wanted: string
  readonly current: string
}

/** Lists what is wrong with `input`, from the issues that its schema found. */
export function problemsOf(error: z.ZodError, input: unknown): Problem[] {
  return error.issues.flatMap((issue) => problemsOfIssue(issue, input))
}

/** `samples[3].temperatureC: wanted number, current value is "hot"` */
export function describeProblem(problem: Problem): string {
  return `${problem.field}: wanted ${problem.wanted}, current value is ${problem.current}`
}

function problemsOfIssue(issue: z.core.$ZodIssue, input: unknown): Problem[] {
  const value = valueAt(input, issue.path)
  const at = (path: readonly PropertyKey[], wanted: string, current: unknown): Problem => ({
    field: fieldName(path),
    wanted,
    current: shown(current),
  })
  switch (issue.code) {
    case 'invalid_type':
      return [at(issue.path, issue.expected, value)]
    case 'too_small':
      return [at(issue.path, bound(issue.origin, issue.inclusive === false ? '>' : '>=', issue.minimum), value)]
    case 'too_big':
      return [at(issue.path, bound(issue.origin, issue.inclusive === false ? '<' : '<=', issue.maximum), value)]
    case 'invalid_value':
      return [at(issue.path, `one of ${issue.values.map(shown).join(', ')}`, value)]
    case 'unrecognized_keys':
      return issue.keys.map((key) => at([...issue.path, key], 'no such field', valueAt(input, [...issue.path, key])))
    case 'invalid_format':
      return [at(issue.path, wantedForm(issue), value)]
    case 'invalid_union': {
      const discriminator =
        'discriminator' in issue && typeof issue.discriminator === 'string' ? issue.discriminator : undefined
      return [at(issue.path, discriminator ? `a known "${discriminator}"` : 'one of the allowed forms', value)]
    }
    default:
      return [at(issue.path, issue.message, value)]
  }
}

/** The forms that our schemas ask for, in words that say how to write them. */
function wantedForm({ format, message }: z.core.$ZodIssueInvalidStringFormat): string {
  switch (format) {
    case 'datetime':
      return 'a time in UTC such as 2026-11-25T09:31:00.000Z'
    case 'uuid':
      return 'a UUID of version 7'
    case 'regex':
      return message
    default:
      return format
  }
}

function bound(origin: string, sign: string, limit: number | bigint): string {
  switch (origin) {
    case 'number':
    case 'int':
      return `number ${sign} ${limit}`
    case 'string':
      return `text of ${sign} ${limit} characters`
    case 'array':
      return `list of ${sign} ${limit} entries`
    default:
      return `${origin} ${sign} ${limit}`
  }
}

function fieldName(path: readonly PropertyKey[]): string {
  if (path.length === 0) return 'input'
  return path
    .map((step, index) => (typeof step === 'number' ? `[${step}]` : `${index > 0 ? '.' : ''}${String(step)}`))
    .join('')
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let here = input
  for (const step of path) {
    if (typeof here !== 'object' || here === null) return undefined
    here = Reflect.get(here, step)
  }
  return here
}

function shown(value: unknown): string {
  if (value === undefined) return 'missing'
  if (typeof value === 'number') return String(value)
  const text = JSON.stringify(value) ?? typeof value
  return text.length > 80 ? `${text.slice(0, 77)}…` : text
}
