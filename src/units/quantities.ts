import { z } from 'zod'

/*
 * Quantities carry their unit in their type, so that a gauge reading cannot be handed to
 * something that wants an absolute one. Each is parsed once, where it enters.
 */

/** Temperature in degrees Celsius, not below absolute zero. */
export const Celsius = z.number().min(-273.15).brand<'celsius'>()
export type Celsius = z.infer<typeof Celsius>

/** Temperature difference in kelvin. */
export const KelvinDifference = z.number().brand<'kelvinDifference'>()
export type KelvinDifference = z.infer<typeof KelvinDifference>

/** Absolute pressure in kilopascal. Gauge readings are converted with the local atmosphere before they get here. */
export const KilopascalAbsolute = z.number().nonnegative().brand<'kilopascalAbsolute'>()
export type KilopascalAbsolute = z.infer<typeof KilopascalAbsolute>

/** Duration in seconds. */
export const Seconds = z.number().nonnegative().brand<'seconds'>()
export type Seconds = z.infer<typeof Seconds>

/** Duration in minutes. */
export const Minutes = z.number().nonnegative().brand<'minutes'>()
export type Minutes = z.infer<typeof Minutes>
