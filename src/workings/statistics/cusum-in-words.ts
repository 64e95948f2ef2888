import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { rateField } from './fields.ts'
import { designBernoulliCusum } from './bernoulli-cusum-design.ts'
import { endless, EndlessField } from './exact/endless.ts'
import { bernoulliWeights } from './run-length/bernoulli-run-length.ts'
import { loneInfectionAlarmsWithin, signalWithin } from './run-length/signal-within.ts'
import { cycleSource, reynoldsSource } from './sources.ts'

interface Wishes {
  readonly p0: number
  readonly p1: number
  readonly proceduresPerYear: number
  readonly yearsBetweenFalseAlarms: number
}

/** The designed chart, in procedures, infections and months. */
export function cusumInWords({ p0, p1, proceduresPerYear, yearsBetweenFalseAlarms }: Wishes) {
  const targetARL0 = proceduresPerYear * yearsBetweenFalseAlarms
  const { h, ARL0, ARL1, ARL1HeadStart } = designBernoulliCusum(p0, p1, targetARL0)
  const [infected, notInfected] = bernoulliWeights(p0, p1)
  const cusum = { infected, notInfected, h }
  return {
    targetARL0,
    h,
    ARL0,
    proceduresToSignal: ARL1,
    proceduresToSignalHeadStart: ARL1HeadStart,
    infectionsToSignal: ARL1 * p1,
    monthsToSignal: (12 * ARL1) / proceduresPerYear,
    falseAlarmWithinYear: signalWithin(cusum, p0, proceduresPerYear),
    falseAlarmWithinYearHeadStart: signalWithin(cusum, p0, proceduresPerYear, h / 2),
    loneInfectionAlarmsWithin: endless(loneInfectionAlarmsWithin(cusum, 0)),
    loneInfectionAlarmsWithinHeadStart: endless(loneInfectionAlarmsWithin(cusum, h / 2)),
  }
}

export const cusumInWordsWorking = defineWorking({
  id: 'cusum-in-words',
  title: 'A CUSUM designed from plain wishes',
  group: 'statistics',
  method:
    'Target = years between false alarms x operations a year; the exact design of bernoulli-cusum-design; the chance of a false alarm within a year of n operations is that of the exact Markov chain of the sum over n steps at p0, from 0 and from the head start h/2. ' +
    'A lone infection alarms within so many operations of the start when start + W(infection) less what the operations before it took off still reaches h.',
  validity:
    'Independent procedures at one rate. Of the first alarm in the year: what comes after an alarm is not counted.',
  sources: [reynoldsSource, cycleSource],
  input: z
    .strictObject({
      p0: rateField.describe('accepted rate'),
      p1: rateField.describe('rate to detect'),
      proceduresPerYear: z.int().min(1).max(1_000_000),
      yearsBetweenFalseAlarms: z.number().min(0.1).max(100),
    })
    .refine(({ p0, p1 }) => p0 !== p1, { path: ['p1'], message: 'a rate other than p0' })
    .refine(
      ({ proceduresPerYear, yearsBetweenFalseAlarms }) =>
        proceduresPerYear * yearsBetweenFalseAlarms >= 2 && proceduresPerYear * yearsBetweenFalseAlarms <= 1e7,
      { path: ['yearsBetweenFalseAlarms'], message: 'between 2 and 10,000,000 operations in all' },
    ),
  output: z.strictObject({
    targetARL0: z.number(),
    h: z.number(),
    ARL0: z.number(),
    proceduresToSignal: z.number().describe('expected at p1'),
    proceduresToSignalHeadStart: z.number(),
    infectionsToSignal: z.number().describe('expected at p1'),
    monthsToSignal: z.number(),
    falseAlarmWithinYear: z.number().describe('chance at p0, from 0'),
    falseAlarmWithinYearHeadStart: z.number().describe('chance at p0, from h/2'),
    loneInfectionAlarmsWithin: EndlessField.describe('first operations in which one infection alone alarms, from 0'),
    loneInfectionAlarmsWithinHeadStart: EndlessField.describe('the same from h/2; 0: it never does'),
  }),
  example: {
    input: { p0: 0.01, p1: 0.03, proceduresPerYear: 400, yearsBetweenFalseAlarms: 5 },
    output: {
      targetARL0: 2000,
      h: 2.758273124694824,
      ARL0: 2002.6211763112567,
      proceduresToSignal: 166.63487099939863,
      proceduresToSignalHeadStart: 119.38386089578236,
      infectionsToSignal: 4.999046129981958,
      monthsToSignal: 4.999046129981959,
      falseAlarmWithinYear: 0.16437894343645323,
      falseAlarmWithinYearHeadStart: 0.23632947803021181,
      loneInfectionAlarmsWithin: 0,
      loneInfectionAlarmsWithinHeadStart: 0,
    },
  },
  work: (given) => cusumInWords(given),
})
