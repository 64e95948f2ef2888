import { z } from 'zod'
import { AttachmentDigest } from '../attachment.ts'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'
import { depths, ruledCriteria } from './case-definition.ts'

export const Depth = z.enum(depths)
export const Culture = z.enum(['notTaken', 'pending', 'noGrowth', 'growth'])
export const AcidFast = z.enum(['notDone', 'pending', 'negative', 'positive'])

export const woundNoted = defineKind({
  kind: 'wound-noted',
  stage: 'wounds',
  nature: 'fact',
  title: 'Wound noted',
  body: z.strictObject({
    wound: subjectOf('wound'),
    case: subjectOf('case'),
    onsetAt: Instant,
    depth: Depth,
    signs: z.string().min(1).max(500),
    culture: Culture,
    acidFast: AcidFast,
    organism: z.string().max(120).optional(),
    photos: z.array(AttachmentDigest).max(12).optional(),
  }),
  creates: (body) => [body.wound],
  subjects: (body) => [body.wound, body.case],
  files: (body) => body.photos ?? [],
  links: (body) => [{ from: body.wound, relation: 'woundOf', to: body.case }],
})

/** What the laboratory says, or says anew, of a sample from a wound. */
export const woundCultured = defineKind({
  kind: 'wound-cultured',
  stage: 'wounds',
  nature: 'fact',
  title: 'Culture of a wound',
  body: z.strictObject({
    wound: subjectOf('wound'),
    material: z.enum(['swab', 'pus', 'tissue', 'fluid', 'blood']),
    culture: Culture,
    acidFast: AcidFast,
    organism: z.string().min(2).max(120).optional(),
    report: AttachmentDigest.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.wound],
  files: (body) => (body.report === undefined ? [] : [body.report]),
})

export const woundTreated = defineKind({
  kind: 'wound-treated',
  stage: 'wounds',
  nature: 'fact',
  title: 'Wound treated',
  body: z.strictObject({
    wound: subjectOf('wound'),
    what: z.enum([
      'opened',
      'drained',
      'antibiotic',
      'reoperation',
      'implantRemoved',
      'readmission',
      'healed',
      'death',
    ]),
    note: z.string().max(500).optional(),
    /** Of a death: whether the infection had to do with it. */
    related: z.enum(['yes', 'no', 'unknown']).optional(),
    photos: z.array(AttachmentDigest).max(12).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.wound],
  files: (body) => body.photos ?? [],
})

/** Whether a wound counts as a surgical site infection, and how deep, by the criteria that were seen. */
export const woundJudged = defineKind({
  kind: 'wound-judged',
  stage: 'wounds',
  nature: 'decision',
  title: 'Wound judged by the case definition',
  body: z.strictObject({
    wound: subjectOf('wound'),
    outcome: z.enum(['infection', 'notInfection']),
    depth: Depth,
    criteria: z.array(z.enum(ruledCriteria)).max(ruledCriteria.length),
    /** The day of the first criterion. */
    eventAt: Instant,
    why: z.string().max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.wound],
})

export const woundKinds = [woundNoted, woundCultured, woundTreated, woundJudged] as const
