import { z } from 'zod'
import { Celsius } from '#units/quantities.ts'
import { AttachmentDigest } from '../attachment.ts'
import { Instant } from '../instant.ts'
import { Detergent, namedLots, usedLots } from '../consumables/lot-link.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

export const useEnded = defineKind({
  kind: 'use-ended',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Use ended',
  /** Last use of a set in a case: its next round begins here, and with it the wait for the soak. */
  body: z.strictObject({
    round: subjectOf('round'),
    set: subjectOf('set'),
    case: subjectOf('case').optional(),
    previousRound: subjectOf('round').optional(),
  }),
  creates: (body) => [body.round],
  subjects: (body) => [body.round, body.set, ...(body.previousRound ? [body.previousRound] : [])],
  mentions: (body) => (body.case ? [body.case] : []),
  links: (body) => [
    { from: body.round, relation: 'of', to: body.set },
    ...(body.case ? [{ from: body.round, relation: 'usedIn' as const, to: body.case }] : []),
    ...(body.previousRound ? [{ from: body.round, relation: 'follows' as const, to: body.previousRound }] : []),
  ],
})

export const reprocessingStarted = defineKind({
  kind: 'reprocessing-started',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Reprocessing started',
  /** A round that begins without a use. */
  body: z.strictObject({
    round: subjectOf('round'),
    set: subjectOf('set'),
    because: z.enum(['newSet', 'loadRejected', 'recalled', 'packDamaged', 'openedNotUsed', 'expired', 'repaired']),
    previousRound: subjectOf('round').optional(),
  }),
  creates: (body) => [body.round],
  subjects: (body) => [body.round, body.set, ...(body.previousRound ? [body.previousRound] : [])],
  links: (body) => [
    { from: body.round, relation: 'of', to: body.set },
    ...(body.previousRound ? [{ from: body.round, relation: 'follows' as const, to: body.previousRound }] : []),
  ],
})

export const soakStarted = defineKind({
  kind: 'soak-started',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Soak started',
  body: z.strictObject({
    round: subjectOf('round'),
    solution: z.enum(['enzymatic', 'detergent', 'water', 'foam']),
    waterC: Celsius.optional(),
    /** Whether the set was kept moist on its way: dry soil sets. */
    transport: z.enum(['moist', 'dry']).optional(),
    /** How it was kept on its way. */
    keptIn: z.enum(['gel', 'foam', 'water', 'nothing']).optional(),
    leftTheatreAt: Instant.optional(),
    arrivedAt: Instant.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.round],
})

const ManualWash = z.strictObject({
  kind: z.literal('manual'),
  detergent: z.string().min(1),
  takenApart: z.boolean(),
  lumensBrushed: z.enum(['yes', 'no', 'noLumen']),
  lumensFlushed: z.enum(['yes', 'no', 'noLumen']),
  ultrasoundMinutes: z.number().nonnegative().optional(),
  ultrasoundMachine: subjectOf('machine').optional(),
  finalRinse: z.enum(['tap', 'softened', 'purified', 'sterile']),
})

const MachineWash = z.strictObject({
  kind: z.literal('washer'),
  machine: subjectOf('machine'),
  program: z.string().min(1),
  takenApart: z.boolean(),
  /** The washer's own log; the A0 is computed from its coldest channel, drying excluded. */
  log: AttachmentDigest.optional(),
  /** How the columns of the log were read, where it was told apart from their names. */
  logMap: z.record(z.string(), z.json()).optional(),
  a0Seconds: z.number().nonnegative().nullable(),
  coldestChannel: z.string().optional(),
})

export const washRecorded = defineKind({
  kind: 'wash-recorded',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Wash recorded',
  body: z.strictObject({
    wash: subjectOf('wash'),
    rounds: z.array(subjectOf('round')).min(1),
    /** Where its water came from, the last rinse included: a wound can be traced to it. */
    outlets: z.array(subjectOf('outlet')).max(6).optional(),
    detergentLot: subjectOf('lot').optional(),
    detergent: Detergent.optional(),
    /** Share of detergent in the water, as it was set. */
    detergentPercent: z.number().positive().max(100).optional(),
    how: z.discriminatedUnion('kind', [ManualWash, MachineWash]),
  }),
  creates: (body) => [body.wash],
  subjects: (body) => [body.wash, ...body.rounds],
  mentions: (body) => [
    ...(body.how.kind === 'washer' ? [body.how.machine] : []),
    ...(body.how.kind === 'manual' && body.how.ultrasoundMachine !== undefined ? [body.how.ultrasoundMachine] : []),
    ...(body.outlets ?? []),
    ...namedLots(body.detergentLot, body.detergent?.lot),
  ],
  files: (body) => (body.how.kind === 'washer' && body.how.log !== undefined ? [body.how.log] : []),
  links: (body) => [
    ...body.rounds.map((round) => ({ from: round, relation: 'washedIn' as const, to: body.wash })),
    ...(body.how.kind === 'washer' ? [{ from: body.wash, relation: 'ranOn' as const, to: body.how.machine }] : []),
    ...(body.outlets ?? []).map((outlet) => ({ from: body.wash, relation: 'rinsedAt' as const, to: outlet })),
    ...usedLots(body.wash, body.detergentLot, body.detergent?.lot),
  ],
})

export const inspected = defineKind({
  kind: 'inspected',
  stage: 'cleaning',
  nature: 'fact',
  title: 'Inspected',
  body: z.strictObject({
    round: subjectOf('round'),
    cleanliness: z.enum(['clean', 'soilSeen']),
    magnified: z.boolean(),
    function: z.enum(['works', 'faulty']),
    insulation: z.enum(['passed', 'failed', 'notTested', 'notInsulated']),
    dry: z.boolean(),
    /** What is done with it now. */
    next: z.enum(['pack', 'washAgain', 'repair', 'retire']).optional(),
    note: z.string().max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.round],
})

export const cleaningKinds = [useEnded, reprocessingStarted, soakStarted, washRecorded, inspected] as const
