import { z } from 'zod'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

const Lumen = z.strictObject({ diameterMm: z.number().positive(), lengthMm: z.number().positive() })

export const deviceRegistered = defineKind({
  kind: 'device-registered',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Device registered',
  body: z.strictObject({
    device: subjectOf('device'),
    name: z.string().min(1).max(120),
    contact: z.enum(['critical', 'semiCritical', 'nonCritical']),
    /** What the maker's instructions say of steam; nothing on file is not a yes. */
    steam: z.enum(['allowed', 'barred', 'noInstructionsOnFile']),
    lumens: z.array(Lumen),
    parts: z.int().min(1),
    insulated: z.boolean(),
    optic: z.boolean(),
    singleUse: z.boolean(),
    lifeInUses: z.int().positive().optional(),
  }),
  creates: (body) => [body.device],
  subjects: (body) => [body.device],
})

export const itemRegistered = defineKind({
  kind: 'item-registered',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Item registered',
  body: z.strictObject({
    item: subjectOf('item'),
    device: subjectOf('device'),
    serial: z.string().min(1).max(60).optional(),
  }),
  creates: (body) => [body.item],
  subjects: (body) => [body.item],
  mentions: (body) => [body.device],
  links: (body) => [{ from: body.item, relation: 'of', to: body.device }],
})

export const setRegistered = defineKind({
  kind: 'set-registered',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Set registered',
  body: z.strictObject({
    set: subjectOf('set'),
    name: z.string().min(1).max(120),
    /** The count sheet: what must be in the set. */
    countSheet: z.array(z.strictObject({ device: subjectOf('device'), count: z.int().positive() })).min(1),
    items: z.array(subjectOf('item')).optional(),
  }),
  creates: (body) => [body.set],
  subjects: (body) => [body.set],
  mentions: (body) => [...body.countSheet.map((line) => line.device), ...(body.items ?? [])],
  links: (body) => [
    ...body.countSheet.map((line) => ({ from: line.device, relation: 'of' as const, to: body.set })),
    ...(body.items ?? []).map((item) => ({ from: item, relation: 'of' as const, to: body.set })),
  ],
})

export const catalogueKinds = [deviceRegistered, itemRegistered, setRegistered] as const
