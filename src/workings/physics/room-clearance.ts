import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { requireWithin } from './require-within.ts'

const minutesPerHour = 60

/**
 * Minutes for ventilation to leave `remainingFraction` of an airborne contamination: -ln(C2/C1) x 60/ACH x mixing factor.
 * @throws RangeError unless the air changes are positive, the fraction in (0, 1] and the mixing factor from 1 to 10.
 * @example roomClearanceMinutes(15, 0.01) // 18.4
 */
export function roomClearanceMinutes(airChangesPerHour: number, remainingFraction: number, mixingFactor = 1): number {
  requireWithin('airChangesPerHour', airChangesPerHour, Number.MIN_VALUE, Number.MAX_VALUE)
  requireWithin('remainingFraction', remainingFraction, Number.MIN_VALUE, 1)
  requireWithin('mixingFactor', mixingFactor, 1, 10)
  // `+ 0` turns the -0 of a fraction of one into 0.
  return (-Math.log(remainingFraction) * minutesPerHour * mixingFactor) / airChangesPerHour + 0
}

export const roomClearanceWorking = defineWorking({
  id: 'room-clearance',
  title: 'Time to clear airborne contamination from a room',
  group: 'physics',
  method:
    't = -ln(C2/C1) x 60/ACH minutes, C2/C1 = 1 - removal. A mixing factor above 1 stretches it for a room whose air does not mix well.',
  validity:
    'The source is gone, the supply air is clean and the room well mixed (factor 1). Real rooms have dead corners: factors up to 10 ' +
    'have been proposed. Entering earlier needs respiratory protection.',
  sources: [
    { title: 'Exponential dilution of a well-mixed room', status: 'computed' },
    { title: 'CDC airborne-contaminant removal table, 2003 and 2005', status: 'unverified' },
  ],
  input: z.strictObject({
    airChangesPerHour: z.number().min(0.01).max(1000).describe('air changes per hour'),
    removalPercent: z
      .number()
      .min(0)
      .max(99.999_999)
      .default(99.9)
      .describe('share of the contamination to be removed, %'),
    mixingFactor: z.number().min(1).max(10).default(1).describe('1 for perfect mixing, up to 10 for poor'),
  }),
  output: z.strictObject({
    minutes: z.number().describe('time, min'),
    wholeMinutes: z.number().describe('the same, rounded up to a whole minute'),
  }),
  example: {
    input: { airChangesPerHour: 15, removalPercent: 99 },
    output: { minutes: 18.42068074395236, wholeMinutes: 19 },
  },
  work: ({ airChangesPerHour, removalPercent, mixingFactor }) => {
    const minutes = roomClearanceMinutes(airChangesPerHour, 1 - removalPercent / 100, mixingFactor)
    return { minutes, wholeMinutes: Math.ceil(minutes) }
  },
})
