import { z } from 'zod'
import { Instant } from '../instant.ts'
import { subjectOf } from '../subject.ts'

/** How a person proved at that moment who they were. */
export const Proof = z.enum(['pin', 'passphrase', 'passkey', 'code'])
export type Proof = z.infer<typeof Proof>

/** What a signature says: I decide this, or I have seen it and confirm it. */
export const SignedAs = z.enum(['author', 'second'])
export type SignedAs = z.infer<typeof SignedAs>

/** A signature under one entry. What was signed is the entry itself: both are hashed together. */
export const Signature = z.strictObject({
  person: subjectOf('person'),
  as: SignedAs,
  how: Proof,
  at: Instant,
  /** A second person was asked for, and nobody else of this unit could have signed as one. */
  alone: z.literal(true).optional(),
})
export type Signature = z.infer<typeof Signature>
