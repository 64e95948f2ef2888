import { z } from 'zod'
import { findWorking, workings } from '#workings/registry.ts'
import { Source } from '#units/source.ts'
import type { AddRoutes } from '../app-type.ts'
import type { WorkingDescription } from '../api-types.ts'
import { describeWorking } from '../describe-working.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, unusableInput } from '../problems.ts'
import { answers } from '../schemas/answers.ts'

const Schema = z.record(z.string(), z.json())

const Description = z.object({
  id: z.string(),
  title: z.string(),
  group: z.enum(['physics', 'statistics', 'planning', 'cost']),
  method: z.string(),
  validity: z.string(),
  sources: z.array(Source),
  input: Schema,
  output: Schema,
  example: z.object({ input: z.json(), output: z.json() }),
})

/** The calculations, each with its method, its sources and its limits of validity. */
export const addWorkingRoutes: AddRoutes = (app, { compute }) => {
  const tags = ['workings']
  let described: readonly WorkingDescription[] | undefined

  app.get(
    '/api/workings',
    {
      schema: {
        tags,
        summary: 'Every working, with the JSON Schemas of its input and output',
        response: answers({ schema: z.array(Description), description: 'Workings by subject, plain before derived' }),
      },
    },
    async () => (described ??= workings.map(describeWorking)),
  )

  app.get(
    '/api/workings/:id',
    {
      schema: {
        tags,
        summary: 'One working',
        params: z.strictObject({ id: z.string().max(80) }),
        response: answers({ schema: Description, description: 'The working' }, 404, 422),
      },
    },
    async (request, reply) => {
      const working = findWorking(request.params.id)
      return working === undefined ? sendProblem(reply, unknownWorking(request.params.id)) : describeWorking(working)
    },
  )

  app.post(
    '/api/workings/:id',
    {
      schema: {
        tags,
        summary: 'Work on an input',
        description:
          'The body is what the working asks for in its `input` schema; the answer is as in its `output` schema.',
        params: z.strictObject({ id: z.string().max(80) }),
        body: z.json(),
        response: answers({ schema: z.json(), description: 'The output of the working' }, 400, 404, 413, 415, 422, 503),
      },
    },
    async (request, reply) => {
      const { id } = request.params
      if (findWorking(id) === undefined) return sendProblem(reply, unknownWorking(id))
      const answer = await compute.run({ kind: 'work', working: id, input: request.body })
      if (answer.kind === 'unusable') return sendProblem(reply, unusableInput(answer.problems))
      return reply.send(answer.kind === 'output' ? answer.output : null)
    },
  )
}

function unknownWorking(id: string) {
  return notFound('working', 'the id of a working, as /api/workings lists them', id)
}
