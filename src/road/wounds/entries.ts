import { z } from 'zod'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

export const woundNoted = defineKind({
  kind: 'wound-noted',
  stage: 'wounds',
  nature: 'fact',
  title: 'Wound noted',
  body: z.strictObject({
    wound: subjectOf('wound'),
    case: subjectOf('case'),
    onsetAt: Instant,
    depth: z.enum(['superficial', 'deep', 'organSpace']),
    signs: z.string().min(1).max(500),
    culture: z.enum(['notTaken', 'pending', 'noGrowth', 'growth']),
    acidFast: z.enum(['notDone', 'pending', 'negative', 'positive']),
    organism: z.string().max(120).optional(),
  }),
  creates: (body) => [body.wound],
  subjects: (body) => [body.wound, body.case],
  links: (body) => [{ from: body.wound, relation: 'woundOf', to: body.case }],
})

export const woundKinds = [woundNoted] as const
