import { z } from 'zod'
import { Celsius } from '#units/quantities.ts'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { isSubjectOf, parseSubject, type SubjectId, subjectOf } from '../subject.ts'
import { BathClaim, BathHow, BathProductId } from './products.ts'

/** A key has small letters and dashes only: what people look for is what the label says. */
const printedOnLot = {
  lotNumber: z.string().min(1).max(60).optional(),
  lotMaker: z.string().min(1).max(80).optional(),
}

export const bathPoured = defineKind({
  kind: 'bath-poured',
  stage: 'baths',
  nature: 'fact',
  title: 'Bath poured',
  body: z.strictObject({
    bath: subjectOf('bath'),
    product: BathProductId,
    /** The container that it came from; its number and maker as they are printed, where it was not on record. */
    lot: subjectOf('lot'),
    ...printedOnLot,
    place: z.string().min(1).max(60),
    litres: z.number().positive(),
    /** The reuse days count from here. */
    activatedAt: Instant,
    expiresAt: Instant,
  }),
  creates: (body) => [body.bath, body.lot],
  subjects: (body) => [body.bath, body.lot],
  links: (body) => [{ from: body.bath, relation: 'fromLot', to: body.lot }],
})

export const bathToppedUp = defineKind({
  kind: 'bath-topped-up',
  stage: 'baths',
  nature: 'fact',
  title: 'Bath topped up',
  /** The clock of the bath does not change. */
  body: z.strictObject({
    bath: subjectOf('bath'),
    litres: z.number().positive(),
    lot: subjectOf('lot'),
    ...printedOnLot,
  }),
  creates: (body) => [body.lot],
  subjects: (body) => [body.bath, body.lot],
  links: (body) => [{ from: body.bath, relation: 'fromLot', to: body.lot }],
})

/** An aqueous bath in an open tray: below 0 °C it is ice, above 100 °C steam. A reading outside is a slip of the finger. */
export const BathCelsius = z.number().min(0).max(100).brand<'celsius'>()

export const bathWarmed = defineKind({
  kind: 'bath-warmed',
  stage: 'baths',
  nature: 'fact',
  title: 'Temperature of a bath read',
  body: z.strictObject({ bath: subjectOf('bath'), celsius: BathCelsius }),
  /** Older versions took any temperature: such a reading is not left out, since an earlier one would then speak for the bath. */
  keptBody: z.strictObject({ bath: subjectOf('bath'), celsius: Celsius }),
  creates: () => [],
  subjects: (body) => [body.bath],
})

const Count = z.int().min(0).max(20)

export const stripBottleOpened = defineKind({
  kind: 'strip-bottle-opened',
  stage: 'baths',
  nature: 'fact',
  title: 'Bottle of strips opened',
  body: z.strictObject({
    lot: subjectOf('lot'),
    product: BathProductId,
    number: z.string().min(1).max(60),
    maker: z.string().min(1).max(80).optional(),
    expiresAt: Instant,
    discardAt: Instant,
    fullStrength: z.strictObject({ tried: Count, passed: Count }),
    halfStrength: z.strictObject({ tried: Count, failed: Count }),
  }),
  creates: (body) => [body.lot],
  subjects: (body) => [body.lot],
})

export const stripRead = defineKind({
  kind: 'strip-read',
  stage: 'baths',
  nature: 'fact',
  title: 'Strength strip read',
  body: z.strictObject({
    bath: subjectOf('bath'),
    /** The bottle that the strip came from. */
    lot: subjectOf('lot'),
    result: z.enum(['pass', 'fail']).or(z.strictObject({ percent: z.number().nonnegative() })),
    readAfterSeconds: z.number().positive(),
  }),
  creates: () => [],
  subjects: (body) => [body.bath, body.lot],
  links: (body) => [{ from: body.bath, relation: 'testedFrom', to: body.lot }],
})

export const immersionStarted = defineKind({
  kind: 'immersion-started',
  stage: 'baths',
  nature: 'fact',
  title: 'Immersion started',
  body: z.strictObject({
    immersion: subjectOf('immersion'),
    bath: subjectOf('bath'),
    rounds: z.array(subjectOf('round')).min(1),
    claim: BathClaim,
    how: BathHow,
    fullyImmersed: z.boolean(),
    /** True also when there is no lumen. */
    lumensFilled: z.boolean(),
    cleanedAndDry: z.boolean(),
    implant: z.boolean(),
    mycobacteriaSuspected: z.boolean(),
  }),
  creates: (body) => [body.immersion],
  subjects: (body) => [body.immersion, body.bath, ...body.rounds],
  links: (body) => [
    { from: body.immersion, relation: 'inBath', to: body.bath },
    ...body.rounds.map((round) => ({ from: round, relation: 'immersedIn' as const, to: body.immersion })),
  ],
})

export const immersionEnded = defineKind({
  kind: 'immersion-ended',
  stage: 'baths',
  nature: 'fact',
  title: 'Taken out of the bath',
  body: z.strictObject({ immersion: subjectOf('immersion') }),
  creates: () => [],
  subjects: (body) => [body.immersion],
})

export const RinseWater = z.enum(['sterile', 'filtered', 'purified', 'softened', 'tap'])
export type RinseWater = z.infer<typeof RinseWater>

/** The outlet of the register that a text names; none when it is a name only. */
export function outletsOf(text: string): readonly SubjectId<'outlet'>[] {
  const subject = parseSubject(text)
  return subject !== undefined && isSubjectOf('outlet', subject) ? [subject] : []
}

export const bathRinsed = defineKind({
  kind: 'bath-rinsed',
  stage: 'baths',
  nature: 'fact',
  title: 'Rinsed after a bath',
  /** One rinse in fresh water. */
  body: z.strictObject({
    immersion: subjectOf('immersion'),
    water: RinseWater,
    /** The outlet of the register, so that a wound can be traced to its water; a name where it is not registered. */
    outlet: z.union([subjectOf('outlet'), z.string().min(1).max(60)]),
    minutes: z.number().positive(),
    litres: z.number().positive(),
    /** Through each lumen; null when there is none. */
    lumenMillilitres: z.number().nonnegative().nullable(),
    alcoholAndAir: z.boolean(),
  }),
  creates: () => [],
  subjects: (body) => [body.immersion],
  mentions: (body) => outletsOf(body.outlet),
  links: (body) =>
    outletsOf(body.outlet).map((outlet) => ({ from: body.immersion, relation: 'rinsedAt' as const, to: outlet })),
})

export const immersionDecided = defineKind({
  kind: 'immersion-decided',
  stage: 'baths',
  nature: 'decision',
  title: 'Immersion decided',
  body: z.strictObject({
    immersion: subjectOf('immersion'),
    rounds: z.array(subjectOf('round')).min(1),
    /** Ready for use at once, never for the shelf; or to be treated again. */
    outcome: z.enum(['readyForUse', 'treatAgain']),
    urological: z.boolean(),
    bladderCancer: z.enum(['yes', 'no', 'notKnown']),
  }),
  creates: () => [],
  subjects: (body) => [body.immersion, ...body.rounds],
})

export const bathRetired = defineKind({
  kind: 'bath-retired',
  stage: 'baths',
  nature: 'fact',
  title: 'Bath discarded',
  body: z.strictObject({
    bath: subjectOf('bath'),
    why: z.enum(['tooWeak', 'tooOld', 'soiled', 'endOfDay', 'other']),
    /** What it was neutralised with, such as glycine; empty when the label asks for none. */
    neutraliser: z.string().max(80),
    disposal: z.string().min(3).max(200),
    /** Where it went. */
    drainedTo: z.enum(['sewer', 'hazardousWaste', 'maker']).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.bath],
})

export const spillRecorded = defineKind({
  kind: 'spill-recorded',
  stage: 'baths',
  nature: 'fact',
  title: 'Spill recorded',
  body: z.strictObject({
    bath: subjectOf('bath'),
    litres: z.number().positive(),
    place: z.string().min(1).max(60),
    neutraliser: z.string().max(80),
    done: z.string().min(3).max(500),
    exposed: z.array(subjectOf('person')),
    protection: z.string().max(200),
    /** What those who were exposed felt, and what was done for them. */
    care: z.string().min(3).max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.bath],
  mentions: (body) => body.exposed,
  links: (body) => body.exposed.map((person) => ({ from: body.bath, relation: 'exposed' as const, to: person })),
})

/** The recall of a bath: what it reaches is worked out from its strips, never written down. */
export const bathRecalled = defineKind({
  kind: 'bath-recalled',
  stage: 'baths',
  nature: 'fact',
  title: 'Recall of a bath opened',
  body: z.strictObject({
    recall: subjectOf('recall'),
    bath: subjectOf('bath'),
    why: z.string().min(5),
    /** The bath itself was at fault, as with a wrong product: everything that was in it counts. */
    wholeBath: z.boolean(),
  }),
  creates: (body) => [body.recall],
  subjects: (body) => [body.recall, body.bath],
  links: (body) => [{ from: body.recall, relation: 'recalls', to: body.bath }],
})

export const bathKinds = [
  bathPoured,
  bathToppedUp,
  bathWarmed,
  stripBottleOpened,
  stripRead,
  immersionStarted,
  immersionEnded,
  bathRinsed,
  immersionDecided,
  bathRetired,
  bathRecalled,
  spillRecorded,
] as const
