import type { SubjectId } from '#road/subject.ts'

/** The program itself, as the author of entries that no person made. Known without being registered. */
export const programItself: SubjectId<'person'> = 'person:nilgrowth'
