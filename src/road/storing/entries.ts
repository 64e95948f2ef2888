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

/** What it is like where packs are stored: of the unit, since it touches every pack there. */
export const storageMeasured = defineKind({
  kind: 'storage-measured',
  stage: 'storing',
  nature: 'fact',
  title: 'Store measured',
  body: z.strictObject({
    unit: subjectOf('unit'),
    place: z.string().min(1).max(60),
    temperatureC: z.number().min(-20).max(60),
    humidityPercent: z.number().min(0).max(100),
  }),
  creates: () => [],
  subjects: (body) => [body.unit],
})

export const storingKinds = [packStored, packConditionNoted, storageMeasured] as const
