/**
 * Canonical JSON after RFC 8785: one text for one value, so that its hash can be checked on any machine.
 * Members sorted by UTF-16 code units (3.2.3), numbers and strings as ECMAScript writes them (3.2.2), no white space.
 * A member whose value is undefined is left out, as JSON.stringify does.
 */
export function canonicalJson(value: unknown): string {
  switch (typeof value) {
    case 'string':
      return canonicalString(value)
    case 'number':
      return canonicalNumber(value)
    case 'boolean':
      return String(value)
    case 'object':
      if (value === null) return 'null'
      return Array.isArray(value) ? `[${value.map(canonicalJson).join(',')}]` : canonicalObject(value)
    default:
      throw new TypeError(`Cannot write canonical JSON as the value must be JSON data: current type is ${typeof value}`)
  }
}

function canonicalObject(value: object): string {
  const members: string[] = []
  // The default sort of JavaScript compares UTF-16 code units, which is what the RFC asks for.
  for (const name of Object.keys(value).sort()) {
    const member: unknown = Reflect.get(value, name)
    if (member !== undefined) members.push(`${canonicalString(name)}:${canonicalJson(member)}`)
  }
  return `{${members.join(',')}}`
}

function canonicalNumber(value: number): string {
  if (!Number.isFinite(value)) {
    throw new RangeError(`Cannot write canonical JSON as numbers must be finite: current value is ${value}`)
  }
  // JSON.stringify writes -0 as 0, as the RFC's section 3.2.2.3 does.
  return JSON.stringify(value)
}

function canonicalString(value: string): string {
  // A lone surrogate has no UTF-8 form: the RFC (3.2.2.2) has it end as an error.
  if (!value.isWellFormed()) {
    throw new RangeError('Cannot write canonical JSON as text must be well-formed Unicode: it holds a lone surrogate')
  }
  return JSON.stringify(value)
}
