import { z } from 'zod'

/*
 * Fields that several workings share. The ranges are those of the job with room to spare; they also
 * keep every power of ten finite, so that no output can turn into null on its way through JSON.
 */

/** Lowest and highest temperature a sensor log can carry here, °C. */
export const temperatureRangeC = { low: -273.15, high: 400 } as const

/** Smallest and largest z anybody has published for moist heat or gas lies well inside this range, K. */
export const zRangeK = { low: 2, high: 100 } as const

export const temperatureField = z.number().min(temperatureRangeC.low).max(temperatureRangeC.high)
export const zField = z.number().min(zRangeK.low).max(zRangeK.high)
export const minutesField = z.number().min(0).max(1e7)
export const secondsField = z.number().min(0).max(1e9)
export const positiveMinutesField = z.number().min(1e-6).max(1e7)
export const populationField = z.number().min(1).max(1e15)

/** What a comparison with a limit can say. 'notEvaluable' is never a pass. */
export const ResultField = z.enum(['met', 'notMet', 'notEvaluable'])
export type Result = z.infer<typeof ResultField>
