import type { SubjectKind, SubjectId } from '#road/subject.ts'

/** A key of letters, digits and dashes, as it is printed and scanned. */
export function slug(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40)
    .replaceAll(/-+$/g, '')
}

/** `lap-a-261125-0931-07`: what it is of, then the moment it was made, to the second. */
export function datedKey<Kind extends SubjectKind>(kind: Kind, prefix: string, at: Date): SubjectId<Kind> {
  const [day = '', time = ''] = at.toISOString().slice(2, 19).replaceAll(/[-:]/g, '').split('T')
  return `${kind}:${slug(prefix)}-${day}-${time.slice(0, 4)}-${time.slice(4)}`
}
