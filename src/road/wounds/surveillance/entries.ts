import { z } from 'zod'
import { defineKind } from '../../kind.ts'
import { subjectOf } from '../../subject.ts'
import { Procedure } from '../../operating/procedures.ts'

const Probability = z.number().gt(0).lt(1)

/**
 * A chart that watches for a rise: which operations it counts, the rate that is usual, the rise that is to be seen, and
 * how often it may cry wolf. The limit that follows from these is computed, never typed in.
 */
export const chartSet = defineKind({
  kind: 'chart-set',
  stage: 'wounds',
  nature: 'decision',
  title: 'Chart of infections set up',
  body: z.strictObject({
    chart: subjectOf('chart'),
    name: z.string().min(2).max(80),
    /** Empty: every operation. */
    procedures: z.array(Procedure).max(Procedure.options.length),
    /** The usual rate, and the rate that is to be noticed. */
    usualRate: Probability,
    raisedRate: Probability,
    /** One false alarm in about this many years, at this many operations a year. */
    falseAlarmYears: z.number().min(0.25).max(50),
    operationsPerYear: z.number().min(1).max(100_000),
    headStart: z.boolean(),
    /** Weighs each operation by its own risk, from the model that is kept with the chart. */
    riskAdjusted: z.boolean(),
    why: z.string().min(5).max(500),
  }),
  creates: (body) => [body.chart],
  subjects: (body) => [body.chart],
})

/** After an alarm was looked into, or a change made: the chart counts anew from here. */
export const chartRestarted = defineKind({
  kind: 'chart-restarted',
  stage: 'wounds',
  nature: 'decision',
  title: 'Chart of infections restarted',
  body: z.strictObject({
    chart: subjectOf('chart'),
    why: z.string().min(5).max(500),
    investigation: subjectOf('investigation').optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.chart],
  mentions: (body) => (body.investigation === undefined ? [] : [body.investigation]),
})

/** Something that changed in the unit and may show in the rates: drawn on every chart. */
export const changeNoted = defineKind({
  kind: 'change-noted',
  stage: 'wounds',
  nature: 'fact',
  title: 'Change noted on the charts',
  body: z.strictObject({
    chart: subjectOf('chart'),
    says: z.string().min(3).max(200),
  }),
  creates: () => [],
  subjects: (body) => [body.chart],
})

export const riskFactors = ['asa3OrMore', 'contaminatedOrDirty', 'longOperation', 'implant', 'converted'] as const
export type RiskFactor = (typeof riskFactors)[number]

/** The unit's own model of risk, fitted to its own record, kept as figures so that what was forecast can be checked. */
export const riskModelKept = defineKind({
  kind: 'risk-model-kept',
  stage: 'wounds',
  nature: 'decision',
  title: 'Model of risk kept',
  body: z.strictObject({
    chart: subjectOf('chart'),
    method: z.enum(['firth', 'given']),
    intercept: z.number().min(-50).max(50),
    coefficients: z.partialRecord(z.enum(riskFactors), z.number().min(-50).max(50)),
    operations: z.int().min(0),
    infections: z.int().min(0),
    /** The last day of the operations that it was fitted to. */
    until: z.iso.date(),
    longOperationMinutes: z.number().positive().max(1440),
    why: z.string().min(5).max(500),
  }),
  creates: () => [],
  subjects: (body) => [body.chart],
})

export const surveillanceKinds = [chartSet, chartRestarted, changeNoted, riskModelKept] as const
