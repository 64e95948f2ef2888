import { z } from 'zod'
import type { AddRoutes } from '../app-type.ts'
import type { UnitState } from '../api-types.ts'
import { sendProblem } from '../problem-reply.ts'
import { answers } from '../schemas/answers.ts'
import { UnitChoiceInput } from '../unit/unit-choice.ts'

const State = z.discriminatedUnion('state', [
  z.object({ state: z.literal('new') }),
  z.object({ state: z.literal('settingUp'), done: z.int(), total: z.int() }),
  z.object({
    state: z.literal('open'),
    site: z.string(),
    unit: z.record(z.string(), z.json()),
    head: z.object({ seq: z.int(), hash: z.string() }),
  }),
])

/** The unit itself: whether there is one, and how it begins. */
export const addUnitRoutes: AddRoutes = (app, { setup }) => {
  const tags = ['unit']

  app.get(
    '/api/unit',
    {
      schema: {
        tags,
        summary: 'Whether the unit is new, being set up, or open',
        response: answers({ schema: State, description: 'The state of the unit' }),
      },
    },
    async () => (await setup.state()) satisfies UnitState,
  )

  app.post(
    '/api/unit',
    {
      schema: {
        tags,
        summary: 'Begin: an empty unit with its manager, or the demonstration unit',
        description: 'The demonstration is written in the background; GET /api/unit tells how far it is.',
        body: UnitChoiceInput,
        response: answers(
          { schema: State, description: 'The state of the unit now', status: 202 },
          400,
          409,
          413,
          415,
          422,
          501,
        ),
      },
    },
    async (request, reply) => {
      const begun = await setup.begin(request.body)
      return 'problem' in begun ? sendProblem(reply, begun.problem) : reply.code(202).send(begun satisfies UnitState)
    },
  )
}
