import { z } from 'zod'
import { Celsius } from '#units/quantities.ts'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { Gtin } from '../scanning/identity.ts'
import { subjectOf } from '../subject.ts'

export const LotOf = z.enum([
  'biologicalIndicator',
  'chemicalIndicator',
  'strengthStrip',
  'airRemovalTest',
  'detergent',
  'chemical',
  'gasCartridge',
  'wrap',
  'containerFilter',
  'waterFilter',
  'implant',
  'other',
])
export type LotOf = z.infer<typeof LotOf>

/** How the maker of a detergent wants it used: what is left out is not known. */
export const MakerRange = z.strictObject({
  dilutionMlPerLitre: z.strictObject({ from: z.number().positive(), to: z.number().positive().max(1000) }).optional(),
  temperatureC: z.strictObject({ from: Celsius, to: Celsius }).optional(),
})
export type MakerRange = z.infer<typeof MakerRange>

/** How the maker of a biological indicator wants it incubated before no growth is read. */
export const Incubation = z.strictObject({
  hours: z.number().positive().max(336),
  temperatureC: z.strictObject({ from: Celsius, to: Celsius }).optional(),
  /** The reader that the maker wants it read in, and no other. */
  reader: z.string().min(1).max(80).optional(),
})
export type Incubation = z.infer<typeof Incubation>

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
    /** Two makers may print the same number: the lot is named by both. */
    maker: z.string().min(1).max(80).optional(),
    /** The number of the product in its code: with the number of the lot it finds this lot by a scan. */
    gtin: Gtin.optional(),
    expiresAt: Instant,
    madeAt: Instant.optional(),
    /** From when it may be used, where the maker wants it stored first. */
    useFrom: Instant.optional(),
    /** When it is thrown away once it is open, whatever its expiry. */
    discardAt: Instant.optional(),
    /** Whether it has to pass a trial of this unit before it is used. */
    needsControl: z.boolean().optional(),
    makerRange: MakerRange.optional(),
    /** Of a biological indicator. */
    incubation: Incubation.optional(),
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
    because: z.enum(['usedUp', 'discarded', 'expired', 'faulty', 'notice']),
    why: z.string().min(3).max(300),
  }),
  creates: () => [],
  subjects: (body) => [body.lot],
})

export const lotQuarantined = defineKind({
  kind: 'lot-quarantined',
  stage: 'consumables',
  nature: 'fact',
  title: 'Lot held or let go',
  /** Held while a doubt is looked into, and let go when it has come to nothing. */
  body: z.strictObject({ lot: subjectOf('lot'), held: z.boolean(), why: z.string().min(3).max(300) }),
  creates: () => [],
  subjects: (body) => [body.lot],
})

/** The recall of a lot: what it reaches is worked out from its links, never written down. */
export const lotRecalled = defineKind({
  kind: 'lot-recalled',
  stage: 'consumables',
  nature: 'fact',
  title: 'Recall of a lot opened',
  body: z.strictObject({
    recall: subjectOf('recall'),
    lot: subjectOf('lot'),
    why: z.string().min(5).max(500),
    /** From when the lot is known to be bad, as when it was spoilt in the store; all of its use when not given. */
    since: Instant.optional(),
  }),
  creates: (body) => [body.recall],
  subjects: (body) => [body.recall, body.lot],
  links: (body) => [{ from: body.recall, relation: 'recalls', to: body.lot }],
})

export const lotUsed = defineKind({
  kind: 'lot-used',
  stage: 'consumables',
  nature: 'fact',
  title: 'Lot used',
  /** Where a lot went that no other entry names: the wrap of a pack, the detergent of a wash, the filter of a machine or an outlet. */
  body: z.strictObject({
    lot: subjectOf('lot'),
    for: z.union([
      subjectOf('round'),
      subjectOf('wash'),
      subjectOf('load'),
      subjectOf('machine'),
      subjectOf('outlet'),
      subjectOf('bath'),
    ]),
  }),
  creates: () => [],
  subjects: (body) => [body.lot],
  mentions: (body) => [body.for],
  links: (body) => [{ from: body.for, relation: 'usedLot', to: body.lot }],
})

export const consumableKinds = [lotOpened, lotControlled, lotQuarantined, lotWithdrawn, lotUsed, lotRecalled] as const
