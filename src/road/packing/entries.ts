import { z } from 'zod'
import { Instant } from '../instant.ts'
import { namedLots, usedLots } from '../consumables/lot-link.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

const Line = z.strictObject({ device: subjectOf('device'), count: z.int().nonnegative() })

export const packSealed = defineKind({
  kind: 'pack-sealed',
  stage: 'packing',
  nature: 'decision',
  title: 'Pack sealed',
  body: z.strictObject({
    round: subjectOf('round'),
    wrapLot: subjectOf('lot').optional(),
    wrap: z.enum(['pouch', 'doublePouch', 'wrap', 'doubleWrap', 'rigidContainer']),
    /** What the outer wrap is made of: some gases are soaked up by cellulose and linen. */
    material: z.enum(['cellulose', 'linen', 'synthetic', 'metalContainer', 'plasticContainer']).optional(),
    /** Chemical indicators by their ISO 11140-1 type number. */
    insideIndicator: z
      .strictObject({
        type: z.enum(['3', '4', '5', '6']),
        lot: z.string().min(1),
        fromLot: subjectOf('lot').optional(),
      })
      .nullable(),
    outsideIndicator: z
      .strictObject({ type: z.literal('1'), lot: z.string().min(1), fromLot: subjectOf('lot').optional() })
      .nullable(),
    counted: z.array(Line),
    massKg: z.number().positive().optional(),
    /** The pack holds an implant: its load waits for the biological indicator. */
    implant: z.boolean(),
    useBefore: Instant.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.round],
  mentions: (body) => [
    ...body.counted.map((line) => line.device),
    ...namedLots(body.wrapLot, body.insideIndicator?.fromLot, body.outsideIndicator?.fromLot),
  ],
  links: (body) => usedLots(body.round, body.wrapLot, body.insideIndicator?.fromLot, body.outsideIndicator?.fromLot),
})

export const packingKinds = [packSealed] as const
