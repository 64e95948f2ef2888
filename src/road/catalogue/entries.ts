import { z } from 'zod'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { Giai, Gtin } from '../scanning/identity.ts'
import { subjectOf } from '../subject.ts'
import { attributeShape, contacts, Lumen } from './attributes.ts'

export const deviceRegistered = defineKind({
  kind: 'device-registered',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Device registered',
  body: z.strictObject({
    device: subjectOf('device'),
    name: z.string().min(1).max(120),
    contact: z.enum(contacts),
    /** What the maker's instructions say of steam; nothing on file is not a yes. */
    steam: z.enum(['allowed', 'barred', 'noInstructionsOnFile']),
    lumens: z.array(Lumen),
    parts: z.int().min(1),
    insulated: z.boolean(),
    optic: z.boolean(),
    singleUse: z.boolean(),
    lifeInUses: z.int().positive().optional(),
    ...attributeShape,
    /** The number of the product in its code, by which a scan finds it. */
    gtin: Gtin.optional(),
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
    /** The code that marks this one piece, where it has one of its own. */
    giai: Giai.optional(),
    /** Uses before this record began to count. */
    usesBefore: z.int().nonnegative().optional(),
  }),
  creates: (body) => [body.item],
  subjects: (body) => [body.item],
  mentions: (body) => [body.device],
  links: (body) => [{ from: body.item, relation: 'of', to: body.device }],
})

export const itemRepaired = defineKind({
  kind: 'item-repaired',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Item repaired',
  body: z.strictObject({
    item: subjectOf('item'),
    what: z.string().min(1).max(500),
    repairer: z.string().min(1).max(120).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.item],
})

export const itemSentOut = defineKind({
  kind: 'item-sent-out',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Item sent out for repair',
  body: z.strictObject({
    item: subjectOf('item'),
    /** What is wrong with it. */
    what: z.string().min(1).max(500),
    repairer: z.string().min(1).max(120).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.item],
})

export const itemRetired = defineKind({
  kind: 'item-retired',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Item retired',
  body: z.strictObject({
    item: subjectOf('item'),
    because: z.enum(['lifeReached', 'worn', 'insulationFailed', 'cannotBeCleaned', 'lost', 'other']),
    note: z.string().max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.item],
})

export const insulationOfItemTested = defineKind({
  kind: 'item-insulation-tested',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Insulation of an item tested',
  body: z.strictObject({
    item: subjectOf('item'),
    result: z.enum(['passed', 'failed']),
    kilovolts: z.number().positive().max(10).optional(),
    /** Where the fault lies, from the tip. */
    faultFromTipMm: z.number().nonnegative().optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.item],
})

const CountLine = z.strictObject({
  device: subjectOf('device'),
  count: z.int().positive(),
  /** Devices that may stand in for this one. */
  substitutes: z.array(subjectOf('device')).max(10).optional(),
})
const CountSheet = z.array(CountLine).min(1)
const devicesOn = (sheet: z.infer<typeof CountSheet>) =>
  sheet.flatMap((line) => [line.device, ...(line.substitutes ?? [])])

export const setRegistered = defineKind({
  kind: 'set-registered',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Set registered',
  body: z.strictObject({
    set: subjectOf('set'),
    name: z.string().min(1).max(120),
    /** The count sheet: what must be in the set. */
    countSheet: CountSheet,
    items: z.array(subjectOf('item')).optional(),
  }),
  creates: (body) => [body.set],
  subjects: (body) => [body.set],
  mentions: (body) => [...devicesOn(body.countSheet), ...(body.items ?? [])],
  links: (body) => [
    ...body.countSheet.map((line) => ({ from: line.device, relation: 'of' as const, to: body.set })),
    ...(body.items ?? []).map((item) => ({ from: item, relation: 'of' as const, to: body.set })),
  ],
})

export const itemMoved = defineKind({
  kind: 'item-moved',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Item moved to a set',
  body: z.strictObject({
    item: subjectOf('item'),
    from: subjectOf('set').optional(),
    to: subjectOf('set').optional(),
    /** Uses of the item so far, as counted in the set that it leaves. */
    uses: z.int().nonnegative(),
  }),
  creates: () => [],
  subjects: (body) => [
    body.item,
    ...(body.from === undefined ? [] : [body.from]),
    ...(body.to === undefined ? [] : [body.to]),
  ],
  links: (body) => (body.to === undefined ? [] : [{ from: body.item, relation: 'of' as const, to: body.to }]),
})

export const loanArrived = defineKind({
  kind: 'loan-arrived',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Loan set arrived',
  body: z.strictObject({
    set: subjectOf('set'),
    name: z.string().min(1).max(120),
    lender: z.string().min(1).max(120),
    countSheet: CountSheet,
    /** The set has been here before, with the same contents. */
    known: z.boolean(),
    neededAt: Instant,
    dueBack: Instant,
    declaredSterile: z.boolean(),
    instructionsOnFile: z.boolean(),
    massKg: z.number().positive().max(50).optional(),
  }),
  creates: (body) => [body.set],
  subjects: (body) => [body.set],
  mentions: (body) => devicesOn(body.countSheet),
  links: (body) => body.countSheet.map((line) => ({ from: line.device, relation: 'of' as const, to: body.set })),
})

export const loanReturned = defineKind({
  kind: 'loan-returned',
  stage: 'catalogue',
  nature: 'fact',
  title: 'Loan set sent back',
  body: z.strictObject({ set: subjectOf('set'), decontaminated: z.boolean(), complete: z.boolean() }),
  creates: () => [],
  subjects: (body) => [body.set],
})

export const catalogueKinds = [
  deviceRegistered,
  itemRegistered,
  itemSentOut,
  itemRepaired,
  itemRetired,
  insulationOfItemTested,
  setRegistered,
  itemMoved,
  loanArrived,
  loanReturned,
] as const
