import { z } from 'zod'
import { AttachmentDigest } from '../../attachment.ts'
import { defineKind } from '../../kind.ts'
import { subjectOf } from '../../subject.ts'

/** One attempt to hear how a patient's wound does, whether somebody was reached or not. */
export const followUpMade = defineKind({
  kind: 'follow-up-made',
  stage: 'wounds',
  nature: 'fact',
  title: 'Follow-up made',
  body: z.strictObject({
    case: subjectOf('case'),
    means: z.enum(['phone', 'visit', 'message', 'record', 'letter']),
    reached: z.enum(['patient', 'relative', 'otherClinician', 'nobody']),
    /** What was heard; nothing when nobody was reached. */
    wound: z.enum(['well', 'suspicious', 'unknown']),
    /** Signs asked for one by one: redness, discharge, pain, swelling, fever, opened. */
    signs: z
      .array(z.enum(['redness', 'discharge', 'pain', 'swelling', 'fever', 'opened', 'lump']))
      .max(7)
      .default([]),
    alive: z.enum(['yes', 'no', 'unknown']).default('unknown'),
    note: z.string().max(500).optional(),
    photos: z.array(AttachmentDigest).max(6).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.case],
  files: (body) => body.photos ?? [],
})

/** A follow-up that is given up: the case stays in the denominator, and every rate says how many are like it. */
export const followUpEnded = defineKind({
  kind: 'follow-up-ended',
  stage: 'wounds',
  nature: 'fact',
  title: 'Follow-up ended early',
  body: z.strictObject({
    case: subjectOf('case'),
    because: z.enum(['notReached', 'declined', 'movedAway', 'died', 'followedElsewhere']),
    note: z.string().max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.case],
})

export const followUpKinds = [followUpMade, followUpEnded] as const
