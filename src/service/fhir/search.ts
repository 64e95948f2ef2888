import { z } from 'zod'
import { type Instant, instant } from '#road/instant.ts'
import { readCursor } from './fhir-walk.ts'
import { type FhirResource, type FhirType, systems } from './resource.ts'

/** What may be asked of each type besides `_id`, `_lastUpdated` and `_count`. */
export const searchSubjects: Readonly<Record<FhirType, readonly string[]>> = Object.freeze({
  Device: [],
  DeviceDefinition: [],
  DeviceUseStatement: ['subject', 'patient'],
  Procedure: ['subject', 'patient'],
  Condition: ['subject', 'patient'],
  Observation: ['subject', 'device'],
  Provenance: [],
  AuditEvent: [],
})

export interface FhirSearch {
  readonly id: string | undefined
  readonly count: number
  readonly from: ReturnType<typeof readCursor>
  readonly fits: (resource: FhirResource) => boolean
}

const usualCount = 50
const mostCount = 200

const Texts = z.record(z.string(), z.union([z.string(), z.array(z.string())]))

/** Reads what is asked; a text says what cannot be. What is not understood is not passed over: the answer would be another. */
export function readSearch(type: FhirType, query: unknown): FhirSearch | string {
  const parsed = Texts.safeParse(query)
  if (!parsed.success) return 'query: wanted parameters with a text each'
  const tests: ((resource: FhirResource) => boolean)[] = []
  let [id, from]: [string | undefined, FhirSearch['from']] = [undefined, undefined]
  let count = usualCount
  for (const [name, given] of Object.entries(parsed.data)) {
    for (const value of [given].flat()) {
      const wrong = (wanted: string): string =>
        `${name}: wanted ${wanted}, current value is ${JSON.stringify(value.slice(0, 80))}`
      const plain = name.replace(/:identifier$/, '')
      if (name === '_id') {
        id = value
        tests.push((resource) => value.split(',').includes(resource.id))
      } else if (name === '_lastUpdated') {
        const test = updatedTest(value)
        if (test === undefined) return wrong('ge, gt, le or lt and a date or time such as ge2026-11-30T08:00:00Z')
        tests.push(({ meta }) => test(meta.lastUpdated))
      } else if (name === '_count') {
        if (!/^\d{1,4}$/.test(value)) return wrong('a whole number')
        count = Math.max(1, Math.min(Number(value), mostCount))
      } else if (name === '_cursor') {
        from = readCursor(value)
        if (from === undefined) return wrong('the place that a link of a page names')
      } else if (name === '_format') {
        if (!value.endsWith('json')) return wrong('json')
      } else if (searchSubjects[type].includes(plain)) tests.push(subjectTest(value))
      else
        return `${name}: wanted one of ${['_id', '_lastUpdated', '_count', '_format', ...searchSubjects[type]].join(', ')}, current value is another`
    }
  }
  return {
    id: id !== undefined && !id.includes(',') ? id : undefined,
    count,
    from,
    fits: (each) => tests.every((test) => test(each)),
  }
}

/** A date is a span (search.html, 3.1.1.4.5): `gt` is after all of it, `le` within it or before. */
function updatedTest(text: string): ((at: Instant) => boolean) | undefined {
  const [, prefix = '', value = ''] =
    /^(ge|gt|le|lt)(\d{4}-\d{2}-\d{2}(?:T\d{2}:\d{2}:\d{2}(?:\.\d{1,3})?(?:Z|[+-]\d{2}:\d{2}))?)$/.exec(text) ?? []
  const low = Date.parse(value)
  if (Number.isNaN(low)) return undefined
  const span = value.length === 10 ? 86_400_000 : value.includes('.') ? 1 : 1000
  const [from, to] = [instant(low), instant(low + span)]
  switch (prefix) {
    case 'ge':
      return (at) => at >= from
    case 'gt':
      return (at) => at >= to
    case 'le':
      return (at) => at < to
    case 'lt':
      return (at) => at < from
    default:
      return undefined
  }
}

/** `Patient/P-1`, `P-1` or `system|P-1` for a patient's number; `Device/machine-s1` for a thing. */
function subjectTest(value: string): (resource: FhirResource) => boolean {
  const number = value.replace(/^Patient\//, '').replace(`${systems.patientNumber}|`, '')
  return (resource) => {
    const subject = resource['subject']
    if (typeof subject !== 'object' || subject === null) return false
    const reference: unknown = Reflect.get(subject, 'reference')
    const identifier: unknown = Reflect.get(subject, 'identifier')
    const known =
      typeof identifier === 'object' && identifier !== null ? (Reflect.get(identifier, 'value') as unknown) : undefined
    return reference === value || reference === `Device/${value}` || known === number
  }
}
