import { z } from 'zod'
import { hardnessUnits } from '#workings/physics/hardness.ts'
import { AttachmentDigest } from '../attachment.ts'
import { namedLots, usedLots } from '../consumables/lot-link.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'
import { soilAnalytes } from './cleaning-test-limits.ts'
import { waterProperties, waterUses } from './water-limits.ts'

export const outletRegistered = defineKind({
  kind: 'outlet-registered',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Water outlet registered',
  body: z.strictObject({
    outlet: subjectOf('outlet'),
    name: z.string().min(1).max(120),
    use: z.enum(waterUses),
    treatment: z.enum(['none', 'softened', 'deionised', 'reverseOsmosis', 'distilled']),
    /** Lot of the filter that makes the water sterile. */
    filterLot: z.string().min(1).max(60).optional(),
    filterFromLot: subjectOf('lot').optional(),
  }),
  creates: (body) => [body.outlet],
  subjects: (body) => [body.outlet],
  mentions: (body) => namedLots(body.filterFromLot),
  links: (body) => usedLots(body.outlet, body.filterFromLot),
})

export const waterSampled = defineKind({
  kind: 'water-sampled',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Water sampled',
  body: z.strictObject({
    outlet: subjectOf('outlet'),
    /** Each figure in the unit of its property; hardness in the unit that is named. */
    figures: z
      .array(z.strictObject({ property: z.enum(waterProperties), value: z.number().min(0).max(1e7) }))
      .min(1)
      .max(waterProperties.length),
    hardnessUnit: z.enum(hardnessUnits).optional(),
    /** What was grown from it, as the laboratory names it. */
    organism: z.string().min(2).max(120).optional(),
    report: AttachmentDigest.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.outlet],
})

export const cleaningTested = defineKind({
  kind: 'cleaning-tested',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Cleaning tested',
  body: z.strictObject({
    round: subjectOf('round'),
    /** The wash that is tested: without it the test counts for the set, but in no trend. */
    wash: subjectOf('wash').optional(),
    device: subjectOf('device').optional(),
    analyte: z.enum(soilAnalytes),
    value: z.number().min(0).max(1e6),
    method: z.string().min(1).max(80).optional(),
    photos: z.array(AttachmentDigest).max(6).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.round, ...(body.wash === undefined ? [] : [body.wash])],
  mentions: (body) => (body.device === undefined ? [] : [body.device]),
  files: (body) => body.photos ?? [],
})

export const foilTested = defineKind({
  kind: 'foil-tested',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Ultrasonic bath tested with foil',
  body: z.strictObject({
    machine: subjectOf('machine'),
    strips: z.int().min(1).max(20),
    seconds: z.number().min(10).max(600),
    /** Whether every strip was eaten away evenly. */
    result: z.enum(['passed', 'failed']),
    photos: z.array(AttachmentDigest).max(6).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.machine],
  files: (body) => body.photos ?? [],
})

export const waterKinds = [outletRegistered, waterSampled, cleaningTested, foilTested] as const
