import { z } from 'zod'
import { Source } from '#units/source.ts'
import { Asked, decideCase, DecidedAnswer } from '#road/deciding/decide.ts'
import { topics } from '#road/deciding/topics.ts'
import type { AddRoutes } from '../app-type.ts'
import type { TopicDescription } from '../api-types.ts'
import { describeTopic } from '../describe-topic.ts'
import { sendProblem } from '../problem-reply.ts'
import { unusableInput } from '../problems.ts'
import { answers } from '../schemas/answers.ts'

const Description = z.object({
  topic: z.string(),
  title: z.string(),
  decisions: z.record(z.string(), z.string()),
  given: z.record(z.string(), z.json()),
  sources: z.array(Source),
  example: z.object({ given: z.json(), decision: z.string() }),
})

/** Questions that can be put without a record: the known facts, and the decision asked. */
export const addDecideRoutes: AddRoutes = (app) => {
  const tags = ['decide']
  let described: readonly TopicDescription[] | undefined

  app.get(
    '/api/decide',
    {
      schema: {
        tags,
        summary: 'Every topic that can be decided, with the JSON Schema of the facts it takes',
        response: answers({ schema: z.array(Description), description: 'Topics in the order of the loop' }),
      },
    },
    async () => (described ??= topics.map(describeTopic)),
  )

  app.post(
    '/api/decide',
    {
      schema: {
        tags,
        summary: 'Decide one case from the facts given',
        description: 'Nothing is written. The findings come from the rules that judge entries on record.',
        body: Asked,
        response: answers(
          { schema: DecidedAnswer, description: 'The decision and what led to it' },
          400,
          413,
          415,
          422,
        ),
      },
    },
    async (request, reply) => {
      const outcome = decideCase(request.body)
      return outcome.kind === 'unusable' ? sendProblem(reply, unusableInput(outcome.problems)) : outcome.answer
    },
  )
}
