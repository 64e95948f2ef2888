import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import { IdentityReason, PatientIdentity } from '#road/people/identity.ts'
import { subjectOf } from '#road/subject.ts'
import { identityActs } from '#journal/identities/identities.ts'

export const ReasonInput = z.strictObject({ why: IdentityReason })

export const IdentityInput = z.strictObject({ identity: PatientIdentity, why: IdentityReason })

export const IdentitySearchInput = z.strictObject({ text: z.string().trim().min(2).max(120), why: IdentityReason })

/** Whether there is one; nothing of it. */
export const IdentityStateSchema = z.object({
  /** Whether this unit keeps identities at all. */
  unitKeeps: z.boolean(),
  is: z.enum(['none', 'kept', 'erased']),
  at: Instant.nullable(),
})

const Shown = z.object({
  name: z.string().optional(),
  hospitalNumber: z.string().optional(),
  bornOn: z.string().optional(),
  phone: z.string().optional(),
})

export const IdentitySeenSchema = z.object({ identity: Shown, keptAt: Instant })

export const IdentitiesFoundSchema = z.object({
  found: z.array(z.object({ case: subjectOf('case'), identity: Shown })),
})

export const IdentityLogSchema = z.object({
  lines: z.array(
    z.object({
      id: z.string(),
      at: Instant,
      person: subjectOf('person').nullable(),
      act: z.enum(identityActs),
      case: subjectOf('case').nullable(),
      why: z.string(),
    }),
  ),
  next: z.string().nullable(),
})
