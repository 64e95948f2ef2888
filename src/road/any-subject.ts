import { z } from 'zod'
import { parseSubject, type SubjectId } from './subject.ts'

/** Schema of a reference to a subject of any kind. */
export const SubjectRef: z.ZodType<SubjectId> = z.custom<SubjectId>(
  (value) => typeof value === 'string' && parseSubject(value) !== undefined,
  { error: 'a subject, as "load:s1-261125-1"' },
)
