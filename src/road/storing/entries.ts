import { z } from 'zod'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

export const PackCondition = z.enum(['intact', 'wet', 'torn', 'punctured', 'sealBroken', 'stained', 'dropped'])
export type PackCondition = z.infer<typeof PackCondition>

export const packStored = defineKind({
  kind: 'pack-stored',
  stage: 'storing',
  nature: 'fact',
  title: 'Pack stored',
  body: z.strictObject({ round: subjectOf('round'), place: z.string().min(1).max(60) }),
  creates: () => [],
  subjects: (body) => [body.round],
})

export const packConditionNoted = defineKind({
  kind: 'pack-condition-noted',
  stage: 'storing',
  nature: 'fact',
  title: 'Condition of a pack noted',
  body: z.strictObject({
    round: subjectOf('round'),
    condition: PackCondition,
    note: z.string().max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.round],
})

export const storingKinds = [packStored, packConditionNoted] as const
