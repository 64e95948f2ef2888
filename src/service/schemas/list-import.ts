import { z } from 'zod'
import { listFormats } from '#road/list-import/format.ts'
import { changeActs } from '#road/list-import/list-changes.ts'
import { ListMapping } from '#road/list-import/mapping.ts'
import { caseBooked } from '#road/operating/entries.ts'
import { subjectOf } from '#road/subject.ts'

const Case = subjectOf('case')

export const ListInput = z.strictObject({
  format: z.enum(listFormats),
  text: z.string().min(1),
  /** How it is read; as the unit has kept it where nothing is said. */
  mapping: ListMapping.optional(),
})

export const ListConfirmedInput = z.strictObject({
  ...ListInput.shape,
  /** As the look at it gave it: what differs from that is not recorded. */
  digest: z.string().min(1).max(64),
  by: subjectOf('person'),
})

export const ListPreviewAnswer = z.object({
  format: z.enum(listFormats),
  rows: z.array(
    z.object({
      line: z.int(),
      ref: z.string().nullable(),
      act: z.enum(changeActs),
      case: Case.nullable(),
      says: z.array(z.string()),
      before: caseBooked.body.nullable(),
      after: caseBooked.body.nullable(),
      asks: z.object({ what: z.literal('surgeon'), name: z.string() }).nullable(),
      namesPatient: z.boolean(),
    }),
  ),
  toRecord: z.int(),
  identities: z.int(),
  digest: z.string(),
  headings: z.array(z.string()),
  mapping: ListMapping,
})

export const ListRecordedAnswer = z.object({
  rows: z.array(
    z.object({
      line: z.int(),
      ref: z.string().nullable(),
      act: z.enum(changeActs),
      case: Case.nullable(),
      outcome: z.enum(['kept', 'alreadyKept', 'refused', 'idTaken', 'unusable', 'notAllowed']),
      says: z.array(z.string()),
    }),
  ),
  identitiesKept: z.int(),
  identitiesLeftOut: z.int(),
})
