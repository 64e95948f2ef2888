import { z } from 'zod'
import { AttachmentDigest } from '../../attachment.ts'
import { EntryId } from '../../entry.ts'
import { defineKind } from '../../kind.ts'
import { SubjectRef } from '../../any-subject.ts'
import { subjectOf } from '../../subject.ts'
import { investigationSteps } from './steps.ts'

export const investigationOpened = defineKind({
  kind: 'investigation-opened',
  stage: 'wounds',
  nature: 'fact',
  title: 'Investigation opened',
  body: z.strictObject({
    investigation: subjectOf('investigation'),
    because: z.enum(['alarm', 'cluster', 'organism', 'failedStep', 'worry']),
    /** The chart whose alarm it is. */
    chart: subjectOf('chart').optional(),
    /** The wounds that started it. */
    wounds: z.array(subjectOf('wound')).max(200).default([]),
    why: z.string().min(5).max(1000),
    lead: subjectOf('person'),
    /** The days of operation that it covers, both included; the year before the day of the opening when not said. */
    from: z.iso.date().optional(),
    to: z.iso.date().optional(),
  }),
  creates: (body) => [body.investigation],
  subjects: (body) => [body.investigation],
  mentions: (body) => [...(body.chart === undefined ? [] : [body.chart]), ...body.wounds, body.lead],
  links: (body) => body.wounds.map((wound) => ({ from: body.investigation, relation: 'looksInto', to: wound })),
})

/** The days of operation that it covers, set anew. Its answer rests on them, so why they were changed stays with them. */
export const investigationWindowSet = defineKind({
  kind: 'investigation-window-set',
  stage: 'wounds',
  nature: 'decision',
  title: 'Days of an investigation set',
  body: z.strictObject({
    investigation: subjectOf('investigation'),
    from: z.iso.date(),
    to: z.iso.date(),
    why: z.string().min(5).max(1000),
  }),
  creates: () => [],
  subjects: (body) => [body.investigation],
})

/** What is thought to be behind it, so far. A hypothesis is never a finding of guilt, and each keeps its words. */
export const hypothesisStated = defineKind({
  kind: 'hypothesis-stated',
  stage: 'wounds',
  nature: 'fact',
  title: 'Hypothesis stated',
  body: z.strictObject({
    investigation: subjectOf('investigation'),
    says: z.string().min(5).max(1000),
    suspect: SubjectRef.optional(),
    standing: z.enum(['tested', 'supported', 'weakened', 'dropped']),
  }),
  creates: () => [],
  subjects: (body) => [body.investigation],
  mentions: (body) => (body.suspect === undefined ? [] : [body.suspect]),
})

export const testResults = ['supported', 'notSupported', 'notDecided'] as const

/** What the test of a hypothesis showed. It speaks for or against; a test that speaks for it proves nothing. */
export const hypothesisTested = defineKind({
  kind: 'hypothesis-tested',
  stage: 'wounds',
  nature: 'fact',
  title: 'Result of the test of a hypothesis',
  body: z.strictObject({
    investigation: subjectOf('investigation'),
    /** The entry that stated it. */
    hypothesis: EntryId,
    result: z.enum(testResults),
    /** What was tested, and what was seen. */
    why: z.string().min(5).max(1000),
  }),
  creates: () => [],
  subjects: (body) => [body.investigation],
})

export const investigationStepMarked = defineKind({
  kind: 'investigation-step-marked',
  stage: 'wounds',
  nature: 'fact',
  title: 'Step of an investigation marked',
  body: z.strictObject({
    investigation: subjectOf('investigation'),
    step: z.enum(investigationSteps),
    state: z.enum(['open', 'underWay', 'done', 'notNeeded']),
    owner: subjectOf('person').optional(),
    due: z.iso.date().optional(),
    note: z.string().max(1000).optional(),
    document: AttachmentDigest.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.investigation],
  mentions: (body) => (body.owner === undefined ? [] : [body.owner]),
  files: (body) => (body.document === undefined ? [] : [body.document]),
})

export const actionTaken = defineKind({
  kind: 'action-taken',
  stage: 'wounds',
  nature: 'fact',
  title: 'Action of an investigation',
  body: z.strictObject({
    investigation: subjectOf('investigation'),
    says: z.string().min(3).max(500),
    on: SubjectRef.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.investigation],
  mentions: (body) => (body.on === undefined ? [] : [body.on]),
})

export const investigationClosed = defineKind({
  kind: 'investigation-closed',
  stage: 'wounds',
  nature: 'decision',
  title: 'Investigation closed',
  body: z.strictObject({
    investigation: subjectOf('investigation'),
    conclusion: z.enum(['associationFound', 'cannotTell', 'noExcess']),
    says: z.string().min(10).max(2000),
    /** What the unit changed, and how it will know whether that helped. */
    changed: z.string().min(3).max(2000),
  }),
  creates: () => [],
  subjects: (body) => [body.investigation],
})

export const investigationKinds = [
  investigationOpened,
  investigationWindowSet,
  hypothesisStated,
  hypothesisTested,
  investigationStepMarked,
  actionTaken,
  investigationClosed,
] as const
