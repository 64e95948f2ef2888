import type { Topic } from '#road/deciding/topic.ts'
import type { TopicDescription } from './api-types.ts'
import { jsonSchemaOf } from './json-schema-of.ts'

/** A topic as data: all that a form or another program needs to ask it. */
export function describeTopic({ topic, title, decisions, given, sources, example }: Topic): TopicDescription {
  return { topic, title, decisions, given: jsonSchemaOf(given, 'input'), sources, example }
}
