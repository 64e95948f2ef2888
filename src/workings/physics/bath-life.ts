import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { type BathUse, bathReasons, contactEndOf, contactMinutesOf, stripFailed, usableUntilOf } from './bath-rules.ts'
import { type Result, ResultField, temperatureField } from './fields.ts'
import { bathSources } from './sources.ts'

const time = (what: string) => z.iso.datetime({ offset: true }).describe(`${what}, ISO 8601 with offset`)
const seen = (what: string) => z.boolean().nullable().default(null).describe(`${what}; null when nobody recorded it`)

const Input = z
  .strictObject({
    at: time('the moment of the judgement'),
    activatedAt: time('when the bath was activated; topping up does not change it'),
    reuseDays: z.number().min(0).max(365).describe('longest reuse the label allows, days of 24 h'),
    expiresAt: time('expiry of the batch'),
    strip: z
      .strictObject({
        strengthPercent: z.number().min(0).max(100).describe('strength read before this use, %'),
        minimumPercent: z.number().min(0).max(100).describe('minimum effective concentration, %'),
      })
      .or(z.enum(['pass', 'fail']))
      .nullable()
      .describe('strip result for this very use; null when there is none'),
    temperatureC: temperatureField.nullable().describe('temperature of the bath, °C; null when not measured'),
    labelTemperatureC: temperatureField.describe('lowest temperature the label allows for this contact time, °C'),
    immersedAt: time('when the last instrument went under').nullable(),
    removedAt: time('when the first came out').nullable().default(null),
    labelContactMinutes: z.number().positive().max(10_000).describe('shortest contact the label allows, min'),
    fullyImmersed: seen('every part was under the surface'),
    lumensFilled: seen('every lumen was filled'),
    cleanAndDry: seen('cleaned and dried before'),
  })
  .refine(({ immersedAt, removedAt }) => removedAt === null || immersedAt !== null, {
    path: ['immersedAt'],
    message: 'a time, since removedAt is given',
  })
  .refine(
    ({ immersedAt, removedAt }) =>
      removedAt === null || immersedAt === null || Date.parse(removedAt) >= Date.parse(immersedAt),
    { path: ['removedAt'], message: 'a time not before immersedAt' },
  )

const Output = z.strictObject({
  result: ResultField.describe('whether this use of the bath counts'),
  usableUntil: z
    .string()
    .nullable()
    .describe('earlier of expiry and end of reuse; null once the strip has failed, for the bath is then discarded'),
  contactEnd: z.string().nullable().describe('earliest moment the instruments may come out; null before immersion'),
  contactMinutes: z.number().nullable().describe('contact so far or in all, min'),
  reasons: z.array(
    z.strictObject({
      rule: z.string().describe('which condition'),
      result: ResultField,
      says: z.string().describe('measured and wanted, for people'),
    }),
  ),
})

export const bathLifeWorking = defineWorking({
  id: 'bath-life',
  title: 'Use of a disinfectant bath',
  group: 'physics',
  method:
    'The use counts when all of these hold: strip at or above the minimum for this very use, within the reuse life until the contact ' +
    'ends, within the expiry, at least the label temperature, at least the label contact, fully immersed, lumens filled, cleaned and dry before. ' +
    'One broken condition makes notMet; otherwise one that was not recorded makes notEvaluable.',
  validity:
    'The label decides; nothing is extrapolated to another temperature. Topping up does not reset the clock and does not rescue a ' +
    'bath whose strip failed: discard it.',
  sources: bathSources,
  input: Input,
  output: Output,
  example: {
    input: {
      at: '2026-03-10T10:20:00Z',
      activatedAt: '2026-03-01T08:00:00Z',
      reuseDays: 14,
      expiresAt: '2026-12-31T00:00:00Z',
      strip: 'pass',
      temperatureC: 20,
      labelTemperatureC: 20,
      immersedAt: '2026-03-10T10:00:00Z',
      removedAt: '2026-03-10T10:12:00Z',
      labelContactMinutes: 12,
      fullyImmersed: true,
      lumensFilled: true,
      cleanAndDry: true,
    },
    output: {
      result: 'met',
      usableUntil: '2026-03-15T08:00:00.000Z',
      contactEnd: '2026-03-10T10:12:00.000Z',
      contactMinutes: 12,
      reasons: [
        { rule: 'strength', result: 'met', says: 'strip passed' },
        {
          rule: 'age',
          result: 'met',
          says: 'usable until 2026-03-15T08:00:00.000Z, needed until 2026-03-10T10:12:00.000Z',
        },
        { rule: 'temperature', result: 'met', says: '20 °C against at least 20 °C' },
        { rule: 'contact', result: 'met', says: '12 min against at least 12 min' },
        { rule: 'fully immersed', result: 'met', says: 'yes' },
        { rule: 'lumens filled', result: 'met', says: 'yes' },
        { rule: 'cleaned and dry before', result: 'met', says: 'yes' },
      ],
    },
  },
  work: (input: BathUse) => {
    const reasons = bathReasons(input)
    const contactEnd = contactEndOf(input)
    return {
      result: overall(reasons.map(({ result }) => result)),
      usableUntil: stripFailed(input) ? null : new Date(usableUntilOf(input)).toISOString(),
      contactEnd: contactEnd === null ? null : new Date(contactEnd).toISOString(),
      contactMinutes: contactMinutesOf(input),
      reasons,
    }
  },
})

/** Broken outright beats not evaluable, and not evaluable is never a pass. */
function overall(results: readonly Result[]): Result {
  if (results.includes('notMet')) return 'notMet'
  return results.includes('notEvaluable') ? 'notEvaluable' : 'met'
}
