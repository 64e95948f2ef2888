import { z } from 'zod'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

export const Role = z.enum([
  'theatre',
  'reprocessing',
  'infectionControl',
  'surgeonInCharge',
  'trainer',
  'manager',
  'auditor',
])
export type Role = z.infer<typeof Role>

export const personRegistered = defineKind({
  kind: 'person-registered',
  stage: 'people',
  nature: 'fact',
  title: 'Person registered',
  body: z.strictObject({
    person: subjectOf('person'),
    name: z.string().min(1).max(120),
    roles: z.array(Role).min(1),
  }),
  creates: (body) => [body.person],
  subjects: (body) => [body.person],
})

export const personLeft = defineKind({
  kind: 'person-left',
  stage: 'people',
  nature: 'fact',
  title: 'Person left',
  body: z.strictObject({ person: subjectOf('person'), note: z.string().optional() }),
  creates: () => [],
  subjects: (body) => [body.person],
})

export const peopleKinds = [personRegistered, personLeft] as const
