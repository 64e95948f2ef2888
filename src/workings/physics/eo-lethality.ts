import { z } from 'zod'
import { dValueMinutes } from './d-value.ts'
import { defineWorking } from '../working.ts'
import { minutesField, positiveMinutesField, temperatureField, zField } from './fields.ts'
import { logReduction } from './log-reduction.ts'

/** D 15.0 min at 30 °C and 1.1 min at 70 °C, both at 60 % relative humidity (spores of B. atrophaeus type). */
const anchors = { dMinutes: 15, atC: 30, secondDMinutes: 1.1, secondAtC: 70 } as const

/** The z that the two anchors imply, 35.25 K. */
export const eoZK = (anchors.secondAtC - anchors.atC) / Math.log10(anchors.dMinutes / anchors.secondDMinutes)

interface GasModel {
  readonly dMinutes: number
  readonly atC: number
  readonly zK: number
}

const defaultModel: GasModel = { dMinutes: anchors.dMinutes, atC: anchors.atC, zK: eoZK }

/**
 * Spore log reduction of a gas exposure held at one temperature after another: sum of minutes/D(T).
 * @throws RangeError for a temperature out of range or a negative time.
 * @example eoLogReduction([{ minutes: 60, temperatureC: 55 }]) // 20.48
 */
export function eoLogReduction(
  steps: readonly { readonly minutes: number; readonly temperatureC: number }[],
  model = defaultModel,
): number {
  return steps.reduce(
    (logs, { minutes, temperatureC }) =>
      logs + logReduction(minutes, dValueMinutes(model.dMinutes, model.atC, model.zK, temperatureC)),
    0,
  )
}

export const eoLethalityWorking = defineWorking({
  id: 'eo-lethality',
  title: 'Ethylene oxide lethality (information only)',
  group: 'physics',
  method:
    'Spore log reduction = sum of minutes/D(T), D(T) = Dref x 10^((Tref - T)/z). By default D = 15.0 min at 30 degC and ' +
    'z = 35.25 K, from the published anchors 15.0 min at 30 degC and 1.1 min at 70 degC at 60 % relative humidity.',
  validity:
    'Information only: a load is released on its physical record, its indicators and its aeration, never on this figure. ' +
    'From 30 to 70 degC at 60 % relative humidity and the gas concentration of the anchors; above 50 degC humidity changes D much.',
  sources: [
    {
      title: 'D of B. atrophaeus spores in ethylene oxide, 1983',
      clause: '30 and 70 degC, 60 % humidity',
      status: 'confirmed',
    },
    { title: 'z from those two anchors', status: 'computed' },
    { title: 'Never a release criterion', status: 'proposal' },
  ],
  input: z.strictObject({
    steps: z
      .array(
        z.strictObject({
          minutes: minutesField.describe('time at this temperature, min'),
          temperatureC: temperatureField.min(30).max(70).describe('temperature of the load, °C'),
        }),
      )
      .min(1)
      .max(100_000)
      .describe('the exposure, one temperature after another'),
    dMinutes: positiveMinutesField.default(defaultModel.dMinutes).describe('D-value at atC, min'),
    atC: temperatureField.default(defaultModel.atC).describe('temperature that D-value belongs to, °C'),
    zK: zField.default(defaultModel.zK).describe('temperature rise that makes D ten times as short, K'),
    population: z.number().min(1).max(1e15).default(1_000_000).describe('spores at the start'),
  }),
  output: z.strictObject({
    logs: z.number().describe('spore log reduction'),
    logSurvivors: z.number().describe('log10 of the mean number of survivors'),
    dMinutes: z.array(z.number()).describe('D-value of each step, min'),
    use: z.literal('information only').describe('what the figure may be used for'),
  }),
  example: {
    input: { steps: [{ minutes: 60, temperatureC: 55 }] },
    output: {
      logs: 20.47606973801121,
      logSurvivors: -14.476069738011208,
      dMinutes: [2.930249836403793],
      use: 'information only',
    },
  },
  work: ({ steps, dMinutes, atC, zK, population }) => {
    const logs = eoLogReduction(steps, { dMinutes, atC, zK })
    return {
      logs,
      logSurvivors: Math.log10(population) - logs,
      dMinutes: steps.map(({ temperatureC }) => dValueMinutes(dMinutes, atC, zK, temperatureC)),
      use: 'information only' as const,
    }
  },
})
