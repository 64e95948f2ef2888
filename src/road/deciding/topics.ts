import { woundClassTopic } from '../operating/decide-wound-class.ts'
import type { Topic } from './topic.ts'

/** Every question that `nilgrowth decide` answers, in the order of the loop. */
export const topics: readonly Topic[] = Object.freeze([woundClassTopic])
