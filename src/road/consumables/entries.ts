import { z } from 'zod'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

export const LotOf = z.enum([
  'biologicalIndicator',
  'chemicalIndicator',
  'strengthStrip',
  'detergent',
  'chemical',
  'wrap',
  'waterFilter',
  'other',
])
export type LotOf = z.infer<typeof LotOf>

export const lotOpened = defineKind({
  kind: 'lot-opened',
  stage: 'consumables',
  nature: 'fact',
  title: 'Lot taken into use',
  body: z.strictObject({
    lot: subjectOf('lot'),
    of: LotOf,
    name: z.string().min(1).max(120),
    number: z.string().min(1).max(60),
    expiresAt: Instant,
    madeAt: Instant.optional(),
  }),
  creates: (body) => [body.lot],
  subjects: (body) => [body.lot],
})

export const lotControlled = defineKind({
  kind: 'lot-quality-controlled',
  stage: 'consumables',
  nature: 'fact',
  title: 'Lot tried',
  body: z.strictObject({
    lot: subjectOf('lot'),
    result: z.enum(['passed', 'failed']),
    what: z.string().min(3).max(200),
  }),
  creates: () => [],
  subjects: (body) => [body.lot],
})

export const lotWithdrawn = defineKind({
  kind: 'lot-withdrawn',
  stage: 'consumables',
  nature: 'fact',
  title: 'Lot taken out of use',
  /** Used up is not bad; withdrawn for a fault is: then what it was used for is in doubt. */
  body: z.strictObject({
    lot: subjectOf('lot'),
    because: z.enum(['usedUp', 'expired', 'faulty', 'notice']),
    why: z.string().min(3).max(300),
  }),
  creates: () => [],
  subjects: (body) => [body.lot],
})

export const lotUsed = defineKind({
  kind: 'lot-used',
  stage: 'consumables',
  nature: 'fact',
  title: 'Lot used',
  /** Where a lot went that no other entry names: the wrap of a pack, the detergent of a wash, the filter of a machine. */
  body: z.strictObject({
    lot: subjectOf('lot'),
    for: z.union([subjectOf('round'), subjectOf('wash'), subjectOf('load'), subjectOf('machine'), subjectOf('bath')]),
  }),
  creates: () => [],
  subjects: (body) => [body.lot],
  mentions: (body) => [body.for],
  links: (body) => [{ from: body.for, relation: 'usedLot', to: body.lot }],
})

export const consumableKinds = [lotOpened, lotControlled, lotWithdrawn, lotUsed] as const
