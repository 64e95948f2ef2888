import { bathLimits } from './baths/limits.ts'
import { cleaningTestLimits } from './cleaning/cleaning-test-limits.ts'
import { catalogueLimits } from './catalogue/limits.ts'
import { waterLimits } from './cleaning/water-limits.ts'
import { cleaningLimits } from './cleaning/limits.ts'
import { consumableLimits } from './consumables/limits.ts'
import { gasLimits } from './gases/limits.ts'
import { operatingLimits } from './operating/limits.ts'
import { woundLimits } from './wounds/limits.ts'
import { packingLimits } from './packing/limits.ts'
import { planningLimits } from './planning/limits.ts'
import { peopleLimits } from './people/limits.ts'
import type { Limit } from './policy.ts'
import { incubationLimits } from './sterilising/biological-indicators.ts'
import { scheduleLimits } from './sterilising/biological-schedule.ts'
import { sterilisingLimits } from './sterilising/limits.ts'
import { storingLimits } from './storing/limits.ts'
import { tracingLimits } from './tracing/limits.ts'
import { unitLimits } from './unit/limits.ts'

/** Every number and choice of the policy, in the order of the loop. A unit may change each, with a reason. */
export const limits: readonly Limit[] = Object.freeze([
  ...unitLimits,
  ...peopleLimits,
  ...catalogueLimits,
  ...cleaningLimits,
  ...cleaningTestLimits,
  ...waterLimits,
  ...packingLimits,
  ...sterilisingLimits,
  ...gasLimits,
  ...bathLimits,
  ...consumableLimits,
  ...incubationLimits,
  ...scheduleLimits,
  ...storingLimits,
  ...operatingLimits,
  ...planningLimits,
  ...woundLimits,
  ...tracingLimits,
])
