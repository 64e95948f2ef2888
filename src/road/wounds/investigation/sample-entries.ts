import { z } from 'zod'
import { AttachmentDigest } from '../../attachment.ts'
import { defineKind } from '../../kind.ts'
import { subjectOf } from '../../subject.ts'
import { AcidFast, Culture } from '../entries.ts'

/** What in the unit a sample may be taken from. */
const SampledSubject = z.union([
  subjectOf('outlet'),
  subjectOf('bath'),
  subjectOf('machine'),
  subjectOf('set'),
  subjectOf('item'),
  subjectOf('lot'),
])

export const samplePlaces = [
  'water',
  'bathFluid',
  'tray',
  'sleeve',
  'lumen',
  'aerator',
  'surface',
  'air',
  'hands',
] as const

export const sampleTaken = defineKind({
  kind: 'sample-taken',
  stage: 'wounds',
  nature: 'fact',
  title: 'Sample taken in the unit',
  body: z.strictObject({
    sample: subjectOf('sample'),
    from: SampledSubject.optional(),
    place: z.enum(samplePlaces),
    /** Where exactly, in words. */
    where: z.string().min(2).max(160),
    lookingFor: z.enum(['anything', 'mycobacteria', 'sameAsWounds']),
    investigation: subjectOf('investigation').optional(),
  }),
  creates: (body) => [body.sample],
  subjects: (body) => [body.sample, ...(body.investigation === undefined ? [] : [body.investigation])],
  mentions: (body) => (body.from === undefined ? [] : [body.from]),
  links: (body) => (body.from === undefined ? [] : [{ from: body.sample, relation: 'takenFrom', to: body.from }]),
})

export const sampleRead = defineKind({
  kind: 'sample-read',
  stage: 'wounds',
  nature: 'fact',
  title: 'Sample read',
  body: z.strictObject({
    sample: subjectOf('sample'),
    culture: Culture,
    acidFast: AcidFast,
    organism: z.string().min(2).max(120).optional(),
    /** Whether the laboratory finds it the same as what grew from the wounds. */
    sameAsWounds: z.enum(['same', 'different', 'notCompared']).default('notCompared'),
    report: AttachmentDigest.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.sample],
  files: (body) => (body.report === undefined ? [] : [body.report]),
})

export const sampleKinds = [sampleTaken, sampleRead] as const
