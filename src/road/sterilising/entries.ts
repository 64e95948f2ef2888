import { z } from 'zod'
import { Celsius, KilopascalAbsolute, Seconds } from '#units/quantities.ts'
import { AttachmentDigest } from '../attachment.ts'
import { Instant } from '../instant.ts'
import { GasProgram } from '#workings/gas/gas-program.ts'
import { LumenClaim } from '../catalogue/route/claims.ts'
import { namedLots, usedLots } from '../consumables/lot-link.ts'
import { defineKind } from '../kind.ts'
import { machineTypes } from './method-of.ts'
import { type SubjectId, subjectKey, subjectOf } from '../subject.ts'

export const machineRegistered = defineKind({
  kind: 'machine-registered',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Machine registered',
  body: z.strictObject({
    machine: subjectOf('machine'),
    name: z.string().min(1).max(120),
    type: z.enum(machineTypes),
    /** Gravity sterilisers need no air-removal test; dynamic ones need it before the first load of the day. */
    airRemoval: z.enum(['dynamic', 'gravity', 'none']),
    chamberLitres: z.number().positive(),
    /** Whether every variable of a cycle is recorded by a sensor other than those that control it. */
    independentRecord: z.boolean().optional(),
    programs: z.array(z.string().min(1)).min(1),
    /** What the maker of a gas steriliser says of the lumens that its gas reaches. */
    lumenClaims: z.array(LumenClaim).max(30).optional(),
    /** What the maker of a gas or dry heat steriliser asks of each programme. */
    windows: z.record(z.string().min(1), GasProgram).optional(),
    /** How the columns of this machine's logs are read, kept from the last import. */
    logMap: z.record(z.string(), z.json()).optional(),
  }),
  creates: (body) => [body.machine],
  subjects: (body) => [body.machine],
})

export const machineWithdrawn = defineKind({
  kind: 'machine-withdrawn',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Machine taken out of service',
  body: z.strictObject({ machine: subjectOf('machine'), why: z.string().min(3) }),
  creates: () => [],
  subjects: (body) => [body.machine],
})

export const machineRepaired = defineKind({
  kind: 'machine-repaired',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Machine repaired',
  body: z.strictObject({ machine: subjectOf('machine'), what: z.string().min(3), major: z.boolean() }),
  creates: () => [],
  subjects: (body) => [body.machine],
})

export const machineReturned = defineKind({
  kind: 'machine-returned',
  stage: 'sterilising',
  nature: 'decision',
  title: 'Machine put back into service',
  body: z.strictObject({ machine: subjectOf('machine'), why: z.string().min(3) }),
  creates: () => [],
  subjects: (body) => [body.machine],
})

export const LoadPurpose = z.enum(['goods', 'airRemovalTest', 'biologicalTest', 'retest', 'qualification', 'warmUp'])
export type LoadPurpose = z.infer<typeof LoadPurpose>

export const loadBuilt = defineKind({
  kind: 'load-built',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Load built',
  body: z.strictObject({
    load: subjectOf('load'),
    machine: subjectOf('machine'),
    program: z.string().min(1),
    purpose: LoadPurpose,
    rounds: z.array(subjectOf('round')),
    /** Lot of the gas cartridge or of the sterilant that the cycle uses. */
    chemicalLot: subjectOf('lot').optional(),
    /** Process challenge device in the load: what it carries. */
    challenge: z
      .strictObject({
        biologicalLot: z.string().min(1).optional(),
        biologicalFromLot: subjectOf('lot').optional(),
        chemicalFromLot: subjectOf('lot').optional(),
        chemicalType: z.enum(['2', '4', '5', '6']).optional(),
      })
      .optional(),
  }),
  creates: (body) => [body.load],
  subjects: (body) => [body.load, body.machine, ...body.rounds],
  mentions: (body) => namedLots(...lotsOfLoad(body)),
  links: (body) => [
    { from: body.load, relation: 'ranOn', to: body.machine },
    ...usedLots(body.load, ...lotsOfLoad(body)),
    ...body.rounds.map((round) => ({ from: round, relation: 'inLoad' as const, to: body.load })),
  ],
})

export const airRemovalTested = defineKind({
  kind: 'air-removal-tested',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Air-removal test read',
  body: z.strictObject({
    machine: subjectOf('machine'),
    load: subjectOf('load').optional(),
    result: z.enum(['passed', 'failed']),
    indicatorLot: z.string().min(1),
    fromLot: subjectOf('lot').optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.machine, ...(body.load ? [body.load] : [])],
  mentions: (body) => namedLots(body.fromLot),
  links: (body) => usedLots(body.machine, body.fromLot),
})

export const leakTested = defineKind({
  kind: 'leak-tested',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Leak test run',
  body: z.strictObject({
    machine: subjectOf('machine'),
    startKPa: KilopascalAbsolute,
    endKPa: KilopascalAbsolute,
    seconds: Seconds,
    stabilisationSeconds: Seconds.optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.machine],
})

const nullableNumber = z.number().nullable()

/** What the log reader made of a cycle: its verdict and the figures that led to it. */
export const CycleReport = z.strictObject({
  verdict: z.enum(['met', 'notMet', 'notEvaluable']),
  holdingSeconds: nullableNumber,
  equilibrationSeconds: nullableNumber,
  fMinutes: nullableNumber,
  fReferenceC: z.number().nullable(),
  zK: z.number().nullable(),
  minC: nullableNumber,
  maxC: nullableNumber,
  maxSpreadK: nullableNumber,
  criteria: z.array(
    z.strictObject({
      id: z.string(),
      result: z.enum(['met', 'notMet', 'notEvaluable']),
      measured: z.string().nullable(),
      limit: z.string().nullable(),
      source: z.string(),
    }),
  ),
  findings: z.array(z.strictObject({ rule: z.string(), weight: z.string(), says: z.string() })),
})
export type CycleReport = z.infer<typeof CycleReport>

export const cycleLogged = defineKind({
  kind: 'cycle-logged',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Cycle logged',
  body: z.strictObject({
    load: subjectOf('load'),
    cycleNumber: z.string().max(40).optional(),
    program: z.string().min(1),
    startedAt: Instant,
    endedAt: Instant,
    /** The log itself is kept by its digest; the report is what the reader computed from it. */
    log: AttachmentDigest,
    logMap: z.record(z.string(), z.json()).optional(),
    cycleInLog: z.int().min(1).optional(),
    report: CycleReport,
  }),
  creates: (body) => [logSubject(body.log)],
  subjects: (body) => [body.load, logSubject(body.log)],
  links: (body) => [{ from: body.load, relation: 'provenBy', to: logSubject(body.log) }],
  files: (body) => [body.log],
})

/** A kept log as a subject: which loads it has been taken as proof of. */
export function logSubject(log: AttachmentDigest): SubjectId<'log'> {
  return `log:${log}`
}

export const chemicalRead = defineKind({
  kind: 'chemical-read',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Chemical indicator read',
  body: z.strictObject({
    load: subjectOf('load'),
    where: z.enum(['outsidePack', 'insidePack', 'challengeDevice']),
    type: z.enum(['1', '2', '3', '4', '5', '6']),
    result: z.enum(['passed', 'failed', 'missing']),
    fromLot: subjectOf('lot').optional(),
    /** The packs that the reading is about; none for a challenge device, or when all packs of the load agree. */
    rounds: z.array(subjectOf('round')).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.load, ...(body.rounds ?? [])],
  mentions: (body) => namedLots(body.fromLot),
  links: (body) => usedLots(body.load, body.fromLot),
})

export const biologicalRead = defineKind({
  kind: 'biological-read',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Biological indicator read',
  body: z.strictObject({
    load: subjectOf('load'),
    lot: z.string().min(1),
    fromLot: subjectOf('lot').optional(),
    result: z.enum(['growth', 'noGrowth']),
    /** One unprocessed indicator of the same lot, incubated beside it; it must grow. */
    control: z
      .strictObject({
        lot: z.string().min(1),
        fromLot: subjectOf('lot').optional(),
        result: z.enum(['growth', 'noGrowth']),
      })
      .nullable(),
    incubatedHours: z.number().positive(),
    /** The hours after which its maker has it read, as somebody typed them: they are held against those of its lot. */
    makersHours: z.number().positive().optional(),
    incubatorC: Celsius.optional(),
    /** What it was read in, where its maker wants one reader and no other. */
    reader: z.string().min(1).max(80).optional(),
  }),
  /** Growth is a failure and is a recall at once: nobody has to remember to open it. */
  creates: (body) => (body.result === 'growth' ? [recallOfLoad(body.load)] : []),
  subjects: (body) => [
    body.load,
    ...(body.result === 'growth' ? [recallOfLoad(body.load)] : []),
    // A lot is known by its controls, too: what they did says whether the lot is alive.
    ...namedLots(body.fromLot, body.control?.fromLot),
  ],
  links: (body) => [
    ...(body.result === 'growth'
      ? [{ from: recallOfLoad(body.load), relation: 'recalls' as const, to: body.load }]
      : []),
    ...usedLots(body.load, body.fromLot, body.control?.fromLot),
  ],
})

function lotsOfLoad(body: {
  readonly chemicalLot?: SubjectId<'lot'> | undefined
  readonly challenge?:
    | {
        readonly biologicalFromLot?: SubjectId<'lot'> | undefined
        readonly chemicalFromLot?: SubjectId<'lot'> | undefined
      }
    | undefined
}): readonly (SubjectId<'lot'> | undefined)[] {
  return [body.chemicalLot, body.challenge?.biologicalFromLot, body.challenge?.chemicalFromLot]
}

/** The recall that a failure of this load is. */
export function recallOfLoad(load: SubjectId<'load'>): SubjectId<'recall'> {
  return `recall:${subjectKey(load)}`
}

export const loadDecided = defineKind({
  kind: 'load-decided',
  stage: 'sterilising',
  nature: 'decision',
  title: 'Load decided',
  body: z.strictObject({
    load: subjectOf('load'),
    packs: z
      .array(
        z.strictObject({
          round: subjectOf('round'),
          outcome: z.enum(['released', 'quarantined', 'rejected']),
          why: z.string().optional(),
        }),
      )
      .min(1),
    /** An implant released before its biological result: only ever as a recorded exception. */
    earlyImplant: z
      .strictObject({
        case: subjectOf('case').optional(),
        implant: z.string().min(1),
        emergency: z.string().min(10),
        wouldHavePrevented: z.string().min(3),
      })
      .optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.load, ...body.packs.map((pack) => pack.round)],
  mentions: (body) => (body.earlyImplant?.case ? [body.earlyImplant.case] : []),
})

export const sterilisingKinds = [
  machineRegistered,
  machineWithdrawn,
  machineRepaired,
  machineReturned,
  loadBuilt,
  airRemovalTested,
  leakTested,
  cycleLogged,
  chemicalRead,
  biologicalRead,
  loadDecided,
] as const
