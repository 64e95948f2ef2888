import { z } from 'zod'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

/** A recall that a person opens for a reason other than a biological indicator: a fault found, a notice received. */
export const recallOpened = defineKind({
  kind: 'recall-opened',
  stage: 'tracing',
  nature: 'fact',
  title: 'Recall opened',
  body: z.strictObject({
    recall: subjectOf('recall'),
    load: subjectOf('load'),
    why: z.string().min(5),
    /** A proven defect of the machine or of practice widens the recall at once, without waiting for repeats. */
    defectProven: z.boolean(),
    /** A fault of the machine whose beginning is known, as from its last good calibration: every load since then counts. */
    since: Instant.optional(),
  }),
  creates: (body) => [body.recall],
  subjects: (body) => [body.recall, body.load],
  links: (body) => [{ from: body.recall, relation: 'recalls', to: body.load }],
})

export const RecallOutcome = z.enum([
  'pulledFromShelf',
  'stoppedBeforeUse',
  'patientToBeFollowed',
  'alreadyReprocessed',
  'discarded',
  'clearedByRepeats',
])
export type RecallOutcome = z.infer<typeof RecallOutcome>

export const recallAccounted = defineKind({
  kind: 'recall-accounted',
  stage: 'tracing',
  nature: 'fact',
  title: 'Pack of a recall accounted for',
  body: z.strictObject({
    recall: subjectOf('recall'),
    round: subjectOf('round'),
    outcome: RecallOutcome,
    note: z.string().max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.recall, body.round],
})

export const recallClosed = defineKind({
  kind: 'recall-closed',
  stage: 'tracing',
  nature: 'decision',
  title: 'Recall closed',
  body: z.strictObject({
    recall: subjectOf('recall'),
    cause: z.string().min(5),
    action: z.string().min(5),
  }),
  creates: () => [],
  subjects: (body) => [body.recall],
})

export const tracingKinds = [recallOpened, recallAccounted, recallClosed] as const
