import { cleaningTestTopic } from '../cleaning/decide-cleaning-test.ts'
import { aerationTopic } from '../gases/decide-aeration.ts'
import { cycleTopic } from '../gases/decide-cycle.ts'
import { residueTopic } from '../gases/decide-residue.ts'
import { roomExposureTopic } from '../gases/decide-room-exposure.ts'
import { sheetDesorptionTopic } from '../gases/decide-sheet-desorption.ts'
import { woundClassTopic } from '../operating/decide-wound-class.ts'
import type { Topic } from './topic.ts'

/** Every question that `nilgrowth decide` answers, in the order of the loop. */
export const topics: readonly Topic[] = Object.freeze([
  cleaningTestTopic,
  cycleTopic,
  aerationTopic,
  residueTopic,
  roomExposureTopic,
  sheetDesorptionTopic,
  woundClassTopic,
])
