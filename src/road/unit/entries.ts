import { z } from 'zod'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

export const unitOpened = defineKind({
  kind: 'unit-opened',
  stage: 'unit',
  nature: 'fact',
  title: 'Unit opened',
  body: z.strictObject({
    unit: subjectOf('unit'),
    name: z.string().min(1).max(120),
    /** A demonstration unit says so on every screen and page. */
    demonstration: z.boolean(),
    timeZone: z.string().min(1),
  }),
  creates: (body) => [body.unit],
  subjects: (body) => [body.unit],
})

export const limitChanged = defineKind({
  kind: 'limit-changed',
  stage: 'unit',
  nature: 'decision',
  title: 'Limit changed',
  body: z.strictObject({
    policy: subjectOf('policy'),
    limit: z.string().min(1),
    value: z.union([z.number(), z.string(), z.boolean(), z.null()]),
    reason: z.string().min(10),
  }),
  creates: (body) => [body.policy],
  subjects: (body) => [body.policy],
})

export const entryWithdrawn = defineKind({
  kind: 'entry-withdrawn',
  stage: 'unit',
  nature: 'fact',
  title: 'Entry withdrawn',
  /** Names the entry by `corrects`; its subjects are those of the entry that it withdraws. */
  body: z.strictObject({ why: z.string().min(5) }),
  creates: () => [],
  subjects: () => [],
})

export const unitKinds = [unitOpened, limitChanged, entryWithdrawn] as const
