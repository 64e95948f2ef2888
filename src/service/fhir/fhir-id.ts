import { createHash } from 'node:crypto'
import { parseSubject, type SubjectId, type SubjectKind, subjectKinds, subjectKey, subjectKind } from '#road/subject.ts'

/*
 * The id of a resource is 1 to 64 of A-Z a-z 0-9 - . (FHIR R4, datatypes, id). A key of ours may have an underscore, and with
 * its kind be longer. So `.` is written `..`, `_` is written `.u`, and what is then too long is named by a hash.
 */

const longest = 64
const hashed = '.h'

export function fhirId(subject: SubjectId): string {
  const id = `${subjectKind(subject)}-${subjectKey(subject).replaceAll('.', '..').replaceAll('_', '.u')}`
  if (id.length <= longest) return id
  const hash = createHash('sha256').update(subject).digest('hex').slice(0, 40)
  return `${subjectKind(subject)}-${hashed}${hash}`
}

/** The subject that an id names; `hashed` where only looking at all of them finds it. */
export function subjectOfFhirId(id: string): SubjectId | { readonly hashed: SubjectKind } | undefined {
  const kind = subjectKinds.find((each) => id.startsWith(`${each}-`))
  if (kind === undefined) return undefined
  const rest = id.slice(kind.length + 1)
  if (rest.startsWith(hashed)) return { hashed: kind }
  const key = rest.replaceAll(/\.([.u])/g, (_, mark) => (mark === 'u' ? '_' : '.'))
  const subject = parseSubject(`${kind}:${key}`)
  // One spelling only.
  return subject !== undefined && fhirId(subject) === id ? subject : undefined
}
