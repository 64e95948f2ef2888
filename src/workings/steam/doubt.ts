import { saturationPressureKPa } from '../physics/saturation-pressure.ts'
import type { SteamCycleSpan } from './cycles.ts'
import { noiseOf } from './noise.ts'
import type { Channel } from './steam-log.ts'
import { negligibleStepK } from './trouble.ts'

/** A limit is met at equality; this much is float noise, not a difference. */
export const floatTolerance = 1e-6

/** A reading outside this many deviations of the noise is not noise: 1 in 150,000 readings. */
const noiseDeviations = 4.5

/**
 * How far a reading of a channel may be from the truth, in kelvin: half a step of the logger (`step`), and with the
 * noise of the channel added (`wide`). A criterion is met only beyond the half step, and is broken outright only
 * beyond the wide doubt; in between it is not evaluable.
 */
export interface Doubt {
  readonly step: number
  readonly wide: number
}

/** The doubt of one channel over the hot part of a cycle; a pressure is turned into kelvin of saturation. */
export function doubtOf(channel: Channel, cycle: SteamCycleSpan, sterilisationC: number): Doubt {
  const scale =
    channel.role === 'pressure'
      ? saturationPressureKPa(sterilisationC + 0.5) - saturationPressureKPa(sterilisationC - 0.5)
      : 1
  const { from, to } = cycle.hot ?? cycle
  const noise = noiseOf(channel.values, from, to, channel.resolution) / scale
  const stepK = channel.resolution / scale
  const half = stepK < negligibleStepK ? 0 : stepK / 2
  return { step: half, wide: half + noiseDeviations * noise }
}
