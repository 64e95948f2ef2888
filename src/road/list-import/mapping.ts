import { z } from 'zod'
import { subjectOf } from '../subject.ts'

/** What a column of a list may be. */
export const listColumns = {
  ref: 'the number of the operation in the other system',
  start: 'when it begins: a date and a time',
  date: 'the day, where date and time have columns of their own',
  time: 'the time of the day, such as 07:30',
  minutes: 'how long it takes, in minutes',
  theatre: 'the theatre',
  surgeon: 'the surgeon: a name or a number',
  procedure: 'the operation',
  implant: 'whether an implant is planned: yes or no',
  status: 'booked, or cancelled',
  pseudonym: 'a number that stands for the patient and does not say who it is',
  hospitalNumber: 'the number of the patient in the hospital',
  name: 'the name of the patient',
  bornOn: 'the day of birth of the patient',
  phone: 'the telephone of the patient',
} as const
export type ListColumn = keyof typeof listColumns

const heading = z.string().min(1).max(120)
const named = z.string().min(1).max(200)

/** How a unit reads the lists of another system. It is kept beside the record, and may be changed. */
export const ListMapping = z.strictObject({
  /** The heading of each column. One that is not named here is looked for under its own name. */
  columns: z.partialRecord(z.enum(Object.keys(listColumns) as [ListColumn, ...ListColumn[]]), heading).default({}),
  /** The order of day, month and year in a date with dots or strokes. `2026-11-30` is read as it is. */
  dateOrder: z.enum(['dayFirst', 'monthFirst']).default('dayFirst'),
  /** Theatres by the name that they have there. */
  theatres: z.record(named, z.string().min(1).max(40)).default({}),
  /** Surgeons by a name or number that they have there. */
  surgeons: z.record(named, subjectOf('person')).default({}),
  /** What is written of an operation whose list does not say whether an implant is planned. Yes is the strict reading. */
  implantWhenNotSaid: z.boolean().default(true),
})
export type ListMapping = z.infer<typeof ListMapping>

export const plainMapping: ListMapping = Object.freeze(ListMapping.parse({}))
