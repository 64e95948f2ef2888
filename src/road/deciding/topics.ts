import { stripBottleTopic } from '../baths/decide-bottle.ts'
import { bathFailureTopic } from '../baths/decide-failure.ts'
import { bathShelfLifeTopic } from '../baths/decide-shelf-life.ts'
import { bathTopUpTopic } from '../baths/decide-top-up.ts'
import { bathUseTopic } from '../baths/decide-use.ts'
import { immediateUseTopic } from '../catalogue/decide-immediate-use.ts'
import { loanReturnTopic, loanTopic } from '../catalogue/decide-loan.ts'
import { lumenClaimTopic } from '../catalogue/decide-lumen-claim.ts'
import { prionTopic } from '../catalogue/decide-prion.ts'
import { routeTopic } from '../catalogue/decide-route.ts'
import { cleaningTestTopic } from '../cleaning/decide-cleaning-test.ts'
import { aerationTopic } from '../gases/decide-aeration.ts'
import { cycleTopic } from '../gases/decide-cycle.ts'
import { residueTopic } from '../gases/decide-residue.ts'
import { roomExposureTopic } from '../gases/decide-room-exposure.ts'
import { sheetDesorptionTopic } from '../gases/decide-sheet-desorption.ts'
import { antibioticDoseTopic, antibioticRedoseTopic, antibioticTimingTopic } from '../operating/decide-antibiotic.ts'
import { prophylaxisTopic } from '../operating/decide-prophylaxis.ts'
import { portInfectionTopic } from '../wounds/decide-port-infection.ts'
import { woundClassTopic } from '../operating/decide-wound-class.ts'
import { biologicalDueTopic } from '../sterilising/decide-biological-due.ts'
import { biologicalResultTopic } from '../sterilising/decide-biological-result.ts'
import { chemicalIndicatorTopic } from '../sterilising/decide-chemical-indicator.ts'
import { machineReturnTopic } from '../sterilising/decide-machine-return.ts'
import { releaseTopic } from '../sterilising/decide-release.ts'
import { storageTopic } from '../storing/decide-storage.ts'
import { breachTopic } from '../tracing/decide-breach.ts'
import { recallTopic } from '../tracing/decide-recall.ts'
import { recalledItemTopic } from '../tracing/decide-recalled-item.ts'
import type { Topic } from './topic.ts'

/** Every question that `nilgrowth decide` answers, in the order of the loop. */
export const topics: readonly Topic[] = Object.freeze([
  routeTopic,
  lumenClaimTopic,
  prionTopic,
  immediateUseTopic,
  loanTopic,
  loanReturnTopic,
  cleaningTestTopic,
  cycleTopic,
  aerationTopic,
  residueTopic,
  roomExposureTopic,
  sheetDesorptionTopic,
  bathUseTopic,
  stripBottleTopic,
  bathTopUpTopic,
  bathShelfLifeTopic,
  bathFailureTopic,
  chemicalIndicatorTopic,
  biologicalDueTopic,
  releaseTopic,
  biologicalResultTopic,
  machineReturnTopic,
  storageTopic,
  recallTopic,
  recalledItemTopic,
  breachTopic,
  woundClassTopic,
  prophylaxisTopic,
  antibioticDoseTopic,
  antibioticTimingTopic,
  antibioticRedoseTopic,
  portInfectionTopic,
])
