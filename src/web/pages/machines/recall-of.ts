import { type SubjectId, subjectKey } from '#road/subject.ts'

/** The recall that a failure of this load is: it has the same key (see the entry `biological-read`). */
export function recallOf(load: SubjectId<'load'>): SubjectId<'recall'> {
  return `recall:${subjectKey(load)}`
}
