import type { Instant } from '../instant.ts'
import { PatientIdentity } from '../people/identity.ts'

/*
 * An operation as another system lists it, whatever form it came in. What the other system did not say is absent: it is
 * never guessed.
 */
export interface Appointment {
  /** The line of the file on which it begins. */
  readonly line: number
  /** How the other system numbers it: by this the same operation is known again. */
  readonly ref: string
  /** What was read, in short: `SIU S12 MSG00001`, `row`, `event`. It is kept as the place that the entry came from. */
  readonly from: string
  /** When the other system said so; null where the form does not tell. */
  readonly saidAt: Instant | null
  readonly is: 'booked' | 'cancelled'
  readonly startsAt?: Instant | undefined
  readonly minutes?: number | undefined
  readonly theatre?: string | undefined
  /** Every way in which the surgeon is named there: a number, a name in either order. */
  readonly surgeon?: readonly string[] | undefined
  readonly procedure?: string | undefined
  readonly implantPlanned?: boolean | undefined
  /** A number that already stands for the patient without saying who it is. */
  readonly pseudonym?: string | undefined
  /** Who the patient is. It goes nowhere but beside the record, where that is kept and by whom that is allowed. */
  readonly identity?: PatientIdentity | undefined
  /** Whose number the hospital number is, where that is said: two hospitals may give the same. */
  readonly numberedBy?: string | undefined
  /** What was left out or taken otherwise than it stands there. */
  readonly remarks: readonly string[]
}

/** Whether the place that an entry came from is a message that says when the other system said so: else it is the hour of recording. */
export function saysWhen(from: string): boolean {
  return /^SIU |^calendar event$|^event left out \(EXDATE\)$/.test(from)
}

/** What could not be read, and why. */
export interface Unreadable {
  readonly line: number
  readonly ref?: string | undefined
  readonly says: string
}

export interface ReadList {
  readonly appointments: readonly Appointment[]
  readonly unreadable: readonly Unreadable[]
}

/** The fields of an identity that hold something that fits; undefined where none does. */
export function identityFrom(
  fields: Partial<Record<keyof PatientIdentity, string | undefined>>,
): PatientIdentity | undefined {
  const fits = Object.entries(fields).filter(
    ([field, value]) => value !== undefined && PatientIdentity.safeParse({ [field]: value }).success,
  )
  return PatientIdentity.safeParse(Object.fromEntries(fits)).data
}
