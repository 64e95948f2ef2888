import { z } from 'zod'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

/** A time of the day where the unit is, `07:30`; `24:00` is its end. */
const ClockTime = z.string().regex(/^(?:[01]\d|2[0-3]):[0-5]\d$|^24:00$/, 'a time of the day such as 07:30')

const Count = z.int().min(0).max(50)

/** Texts of one length: their order is that of the times. */
const inOrder = (...times: readonly string[]): boolean =>
  times.every((time, at) => at === 0 || (times[at - 1] ?? '') < time)

const Hours = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('theatre'),
      theatre: z.string().min(1).max(40),
      opens: ClockTime,
      closes: ClockTime,
      /** Nothing may run past it; what runs past `closes` is overtime. */
      mustClose: ClockTime,
    })
    .refine((hours) => inOrder(hours.opens, hours.closes) && hours.closes <= hours.mustClose, {
      error: 'opens before closes, and closes no later than mustClose',
    }),
  z
    .strictObject({
      kind: z.literal('staff'),
      place: z.enum(['washRoom', 'packing']),
      count: Count,
      from: ClockTime,
      to: ClockTime,
    })
    .refine((hours) => inOrder(hours.from, hours.to), { error: 'from before to' }),
  z
    .strictObject({
      kind: z.literal('machine'),
      machine: subjectOf('machine'),
      from: ClockTime,
      to: ClockTime,
      /** Sets in one run. */
      places: z.int().min(1).max(200).optional(),
      /** One run from start to end, drying included, aeration not. */
      runMinutes: z.int().min(1).max(2880).optional(),
    })
    .refine((hours) => inOrder(hours.from, hours.to), { error: 'from before to' }),
])

export const hoursSet = defineKind({
  kind: 'hours-set',
  stage: 'unit',
  nature: 'fact',
  title: 'Working hours set',
  /** Of one theatre, one place of work, or one machine; what was set before for it no longer counts. */
  body: z.strictObject({ unit: subjectOf('unit'), hours: Hours }),
  creates: () => [],
  subjects: (body) => [body.unit],
  mentions: (body) => (body.hours.kind === 'machine' ? [body.hours.machine] : []),
})

export const caseLocked = defineKind({
  kind: 'case-locked',
  stage: 'operating',
  nature: 'fact',
  title: 'Place of a case on the list fixed',
  /** What is given is fixed; with neither, the case is free again. */
  body: z.strictObject({
    case: subjectOf('case'),
    theatre: z.string().min(1).max(40).optional(),
    startAt: Instant.optional(),
    why: z.string().min(3).max(300).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.case],
})

const Objective = z.strictObject({
  inversions: z.int().min(0),
  overtime: z.int().min(0),
  occupied: z.int().min(0),
})

export const listPlanned = defineKind({
  kind: 'list-planned',
  stage: 'operating',
  nature: 'decision',
  title: 'List of a day planned',
  body: z.strictObject({
    list: subjectOf('list'),
    day: z.iso.date(),
    because: z.enum(['planned', 'replanned', 'changedByHand']),
    why: z.string().min(3).max(500).optional(),
    status: z.enum(['optimal', 'feasible', 'byHand']),
    objective: Objective,
    /** What no plan can be better than. */
    bound: Objective.nullable(),
    cases: z
      .array(
        z.strictObject({
          case: subjectOf('case'),
          theatre: z.string().min(1).max(40),
          startAt: Instant,
          endsAt: Instant,
        }),
      )
      .min(1)
      .max(300),
    /** What the plan breaks, as the checker said it. */
    breaks: z.array(z.string().max(300)).max(200),
    /** What could not be turned into a number, or was taken from a default. */
    notes: z.array(z.string().max(500)).max(200),
  }),
  creates: (body) => [body.list],
  subjects: (body) => [body.list, ...body.cases.map((row) => row.case)],
})

export const hoursKinds = [hoursSet] as const
export const planningKinds = [caseLocked, listPlanned] as const
