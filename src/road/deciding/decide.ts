import type { Problem } from '#units/problem.ts'
import { Source } from '#units/source.ts'
import { z } from 'zod'
import { Finding } from '../finding.ts'
import type { Topic } from './topic.ts'
import { topics } from './topics.ts'

/** A case as it is asked: a topic and the facts known. */
export const Asked = z.strictObject({
  topic: z.string().describe('The name of a topic, as `nilgrowth decide list` shows it'),
  given: z.record(z.string(), z.json()).describe('The facts known; each topic says which it takes'),
})
export type Asked = z.infer<typeof Asked>

/** What came of a case, with all that it rests on. */
export const DecidedAnswer = z.object({
  topic: z.string(),
  decision: z.string(),
  findings: z.array(Finding),
  sources: z.array(Source),
})
export type DecidedAnswer = z.infer<typeof DecidedAnswer>

export type DecideOutcome =
  | { readonly kind: 'decided'; readonly answer: DecidedAnswer }
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

const byName: ReadonlyMap<string, Topic> = new Map(topics.map((topic) => [topic.topic, topic]))

export function findTopic(name: string): Topic | undefined {
  return byName.get(name)
}

/** Decides one case by its topic. A topic that does not exist or a fact that cannot be used comes back as problems. */
export function decideCase(asked: Asked): DecideOutcome {
  const topic = findTopic(asked.topic)
  if (topic === undefined) {
    const wanted = `one of ${topics.map(({ topic: name }) => name).join(', ')}`
    return { kind: 'unusable', problems: [{ field: 'topic', wanted, current: JSON.stringify(asked.topic) }] }
  }
  const result = topic.run(asked.given)
  if (result.kind === 'unusable') {
    return {
      kind: 'unusable',
      problems: result.problems.map((problem) => ({ ...problem, field: fieldInGiven(problem.field) })),
    }
  }
  const { decision, findings } = result
  const sources = eachOnce([...findings.map(({ source }) => source), ...topic.sources])
  return { kind: 'decided', answer: { topic: topic.topic, decision, findings: [...findings], sources } }
}

function fieldInGiven(field: string): string {
  return field === 'input' ? 'given' : `given.${field}`
}

function eachOnce(sources: readonly Source[]): Source[] {
  return [...new Map(sources.map((source) => [JSON.stringify(source), source])).values()]
}
