import { z } from 'zod'
import { Source } from '#units/source.ts'
import { DerivedField } from '#workings/derived.ts'
import { EndlessField } from '#workings/statistics/exact/endless.ts'
import { Instant } from '#road/instant.ts'
import { subjectOf } from '#road/subject.ts'
import { WoundClass } from '#road/operating/entries.ts'
import { preventions } from '#road/operating/prevention-entries.ts'
import { Procedure } from '#road/operating/procedures.ts'
import { riskCategories } from '#road/wounds/surveillance/risk-index.ts'
import { AcidFast, Depth } from '#road/wounds/entries.ts'
import { samplePlaces } from '#road/wounds/investigation/sample-entries.ts'
import { withoutRecall } from '#road/wounds/investigation/recall-way.ts'

export const CallAnswer = z.object({
  why: z.enum(['early', 'windowEnds', 'slowOrganisms']),
  day: z.int(),
  dueAt: Instant,
  state: z.enum(['done', 'later', 'due', 'overdue', 'lost', 'notNeeded']),
  doneAt: Instant.nullable(),
})

export const DueCallAnswer = z.object({
  case: subjectOf('case'),
  patient: z.string(),
  procedure: z.string(),
  operatedAt: Instant,
  call: CallAnswer,
  attempts: z.int(),
  lastHeardAt: Instant.nullable(),
})

const DurationCutAnswer = z.object({
  procedure: Procedure,
  minutes: z.number(),
  from: z.enum(['own', 'given']),
  operations: z.int(),
  source: Source,
})

const RiskIndexAnswer = z.object({
  category: z.enum(riskCategories).nullable(),
  missing: z.array(z.enum(['asa', 'durationCut'])),
  points: z.object({ asa: z.boolean().nullable(), woundClass: z.boolean(), duration: z.boolean().nullable() }),
  laparoscope: z.boolean(),
  cut: DurationCutAnswer.nullable(),
})

export const CaseLineAnswer = z.object({
  case: subjectOf('case'),
  at: Instant,
  day: z.string(),
  procedure: z.string(),
  category: Procedure.nullable(),
  theatre: z.string().nullable(),
  surgeon: subjectOf('person'),
  position: z.int().nullable(),
  minutes: z.number(),
  woundClass: WoundClass,
  asa: z.int().nullable(),
  implant: z.boolean(),
  converted: z.boolean(),
  riskIndex: RiskIndexAnswer,
  prevention: z.partialRecord(z.enum(preventions), z.enum(['done', 'notDone', 'notApplicable'])),
  preventionTold: z.object({ told: z.int(), asked: z.int() }),
  followUp: z.object({
    calls: z.array(CallAnswer),
    lastHeardAt: Instant.nullable(),
    complete: z.boolean(),
    standing: z.enum(['running', 'complete', 'lost']),
  }),
  infection: z
    .object({
      wound: subjectOf('wound'),
      depth: Depth,
      eventAt: Instant,
      onsetDays: z.int(),
      counted: z.boolean(),
      organism: z.string().nullable(),
      acidFast: z.enum(['notDone', 'pending', 'negative', 'positive']),
    })
    .nullable(),
  unjudged: z.int(),
})

const Share = z.tuple([z.number(), z.number()])

export const RateAnswer = z.object({
  operations: z.int(),
  infections: z.int(),
  late: z.int(),
  unjudged: z.int(),
  rate: z.number().nullable(),
  interval: Share.nullable(),
  followUp: z.object({ ended: z.int(), known: z.int(), running: z.int(), lost: z.int() }),
  bounds: z.object({ best: z.number(), worst: z.number() }).nullable(),
  why: z.object({ interval: DerivedField, bounds: DerivedField }).nullable(),
})

export const RatesAnswer = z.object({
  from: z.string().nullable(),
  all: RateAnswer,
  groups: z.array(z.object({ group: z.string(), rate: RateAnswer })),
  prevention: z.array(z.object({ measure: z.enum(preventions), done: z.int(), notDone: z.int(), unknown: z.int() })),
  preventionComplete: z.int(),
  cuts: z.array(DurationCutAnswer),
})

export const SuspectsAnswer = z.object({
  asked: z.record(z.string(), z.json()),
  span: z.object({
    from: z.string(),
    to: z.string(),
    of: z
      .object({ investigation: subjectOf('investigation'), why: z.string().nullable(), knownAt: Instant.nullable() })
      .nullable(),
    wounds: z.array(subjectOf('wound')),
  }),
  ranking: z.record(z.string(), z.json()),
  titles: z.record(z.string(), z.string()),
  recalls: z.record(
    z.string(),
    z.object({
      recalls: z.array(z.object({ of: z.string(), since: Instant.nullable() })),
      without: z.enum(withoutRecall).nullable(),
    }),
  ),
  samples: z.array(
    z.object({
      sample: subjectOf('sample'),
      takenAt: Instant,
      place: z.enum(samplePlaces),
      where: z.string(),
      from: z.string().nullable(),
      lookingFor: z.string(),
      standing: z.enum(['waiting', 'growth', 'noGrowth']),
      organism: z.string().nullable(),
      acidFast: AcidFast.nullable(),
      sameAsWounds: z.enum(['same', 'different', 'notCompared']).nullable(),
    }),
  ),
  lines: z.array(
    z.object({
      case: subjectOf('case'),
      day: z.string(),
      procedure: z.string(),
      infected: z.boolean(),
      onsetDays: z.int().nullable(),
      organism: z.string().nullable(),
      riskIndex: z.enum(riskCategories).nullable(),
      met: z.array(z.string()),
    }),
  ),
})

export const LookBackAnswer = z.object({
  investigation: z.record(z.string(), z.json()),
  since: z
    .object({
      closedAt: Instant,
      cases: z.array(z.object({ case: subjectOf('case'), what: z.array(z.enum(['wound', 'exposures'])) })),
      samples: z.array(subjectOf('sample')),
      recalls: z.array(subjectOf('recall')),
    })
    .nullable(),
})

const GapLimits = z.object({ cl: z.number(), ucl: z.number(), lcl: z.number() })

export const ChartOfWoundsAnswer = z.object({
  chart: z.record(z.string(), z.json()),
  path: z
    .object({
      design: z.object({
        usualRate: z.number(),
        raisedRate: z.number(),
        oddsRatio: z.number(),
        limit: z.number(),
        start: z.number(),
        riskAdjusted: z.boolean(),
        withoutRise: z.number(),
        withRise: z.number(),
        withRiseFromStart: z.number(),
        falseAlarmWithinYear: z.number(),
        loneInfectionAlarmsWithin: EndlessField,
        why: DerivedField,
      }),
      points: z.array(
        z.object({
          case: subjectOf('case'),
          at: Instant,
          infected: z.boolean(),
          risk: z.number().nullable(),
          value: z.number(),
          alarm: z.boolean(),
        }),
      ),
      alarms: z.array(Instant),
      alarmSince: Instant.nullable(),
      alarmRun: z.array(z.object({ case: subjectOf('case'), wound: subjectOf('wound') })),
    })
    .nullable(),
  gaps: z
    .object({
      lower: z.int().nullable(),
      upper: z.int(),
      gaps: z.array(
        z.object({
          case: subjectOf('case'),
          at: Instant,
          operations: z.int(),
          days: z.int(),
          short: z.boolean(),
          soon: z.boolean(),
        }),
      ),
      g: GapLimits.nullable(),
      t: GapLimits.nullable(),
      why: z.object({ probability: DerivedField, g: DerivedField.nullable(), t: DerivedField.nullable() }),
    })
    .nullable(),
  rate: RateAnswer,
  fitted: z.record(z.string(), z.json()).nullable(),
})
