import { a0HoldTimeWorking } from './physics/a0-hold-time.ts'
import { a0Working } from './physics/a0.ts'
import { airRemovalWorking } from './physics/air-removal.ts'
import { bathLifeWorking } from './physics/bath-life.ts'
import { dValueWorking } from './physics/d-value.ts'
import { eoAerationWorking } from './physics/eo-aeration.ts'
import { eoLethalityWorking } from './physics/eo-lethality.ts'
import { exposureForSurvivorsWorking } from './physics/exposure-for-survivors.ts'
import { fValueWorking } from './physics/f-value.ts'
import { flushTimeWorking } from './physics/flush-time.ts'
import { fractionNegativeDWorking } from './physics/fraction-negative-d.ts'
import { gaugePressureWorking } from './physics/gauge-pressure.ts'
import { hardnessWorking } from './physics/hardness.ts'
import { leakRateWorking } from './physics/leak-rate.ts'
import { lethalRateWorking } from './physics/lethal-rate.ts'
import { logReductionWorking } from './physics/log-reduction.ts'
import { lumenVolumeWorking } from './physics/lumen-volume.ts'
import { roomClearanceWorking } from './physics/room-clearance.ts'
import { saturationPressureWorking } from './physics/saturation-pressure.ts'
import { saturationTemperatureWorking } from './physics/saturation-temperature.ts'
import { standardAtmosphereWorking } from './physics/standard-atmosphere.ts'
import { superheatWorking } from './physics/superheat.ts'
import { survivalKillWorking } from './physics/survival-kill.ts'
import { timeWeightedExposureWorking } from './physics/time-weighted-exposure.ts'
import { gasCycleWorking } from './gas/gas-cycle.ts'
import { steamCycleWorking } from './steam/steam-cycle.ts'
import { washerCycleWorking } from './washer/washer-cycle.ts'
import type { Working } from './working.ts'

/** Every working there is, in the order in which lists and pages show them: by subject, plain before derived. */
export const workings: readonly Working[] = Object.freeze([
  // Steam
  saturationPressureWorking,
  saturationTemperatureWorking,
  gaugePressureWorking,
  standardAtmosphereWorking,
  superheatWorking,
  leakRateWorking,
  airRemovalWorking,
  // Logged cycles
  steamCycleWorking,
  washerCycleWorking,
  gasCycleWorking,
  // Lethality of moist heat
  lethalRateWorking,
  fValueWorking,
  dValueWorking,
  logReductionWorking,
  exposureForSurvivorsWorking,
  survivalKillWorking,
  fractionNegativeDWorking,
  // Washing and water
  a0Working,
  a0HoldTimeWorking,
  hardnessWorking,
  lumenVolumeWorking,
  flushTimeWorking,
  // Gas, baths and rooms
  eoLethalityWorking,
  eoAerationWorking,
  timeWeightedExposureWorking,
  bathLifeWorking,
  roomClearanceWorking,
])

const byId = new Map(workings.map((working) => [working.id, working]))

/** The working of that id, or undefined. */
export function findWorking(id: string): Working | undefined {
  return byId.get(id)
}
