import { z } from 'zod'
import type { Problem } from '#units/problem.ts'
import type { AddRoutes } from '../app-type.ts'
import type { UnitChoice, UnitState } from '../api-types.ts'
import type { ServiceContext } from '../context.ts'
import { sendProblem, sendWait } from '../problem-reply.ts'
import { unusableInput } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { isThisComputer } from '../this-computer.ts'
import { isSetupCode } from '../unit/setup-code.ts'
import { UnitChoiceInput } from '../unit/unit-choice.ts'
import { unfitSecrets } from '../sign-in/unfit-secrets.ts'

const State = z.discriminatedUnion('state', [
  z.object({ state: z.literal('new') }),
  z.object({ state: z.literal('settingUp'), done: z.int(), total: z.int() }),
  z.object({
    state: z.literal('open'),
    site: z.string(),
    comparesSites: z.boolean(),
    unit: z.record(z.string(), z.json()),
    head: z.object({ seq: z.int(), hash: z.string() }),
  }),
])

/** The unit itself: whether there is one, and how it begins. */
export const addUnitRoutes: AddRoutes = (app, context) => {
  const { setup, rates } = context
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
      const attempt = rates.tried(request)
      if (attempt.wait > 0) return sendWait(reply, attempt.wait)
      const unfit = await unfitChoice(context, request.body)
      if (!unfit.some(({ field }) => field === 'code')) attempt.right()
      if (unfit.length > 0) return sendProblem(reply, unusableInput(unfit))
      const begun = await setup.begin(request.body)
      return 'problem' in begun ? sendProblem(reply, begun.problem) : reply.code(202).send(begun satisfies UnitState)
    },
  )
}

/**
 * The first manager proves to be at the console by the code that it printed, and so does whoever would fill a record that
 * other computers reach with a demonstration.
 */
async function unfitChoice(
  { config, journal, signIn }: ServiceContext,
  choice: UnitChoice,
): Promise<readonly Problem[]> {
  const isDemonstration = choice.choice === 'demonstration'
  if (config.signIn === 'open' || (isDemonstration && isThisComputer(config.host))) return []
  const rightCode = await isSetupCode(journal.notes, choice.code ?? '')
  const code = { field: 'code', wanted: 'the one-time code that the console printed when the service was started' }
  const codes = rightCode ? [] : [{ ...code, current: choice.code === undefined ? 'missing' : 'another one' }]
  if (isDemonstration) return codes
  return [...codes, ...unfitSecrets(await signIn.policy(), { passphrase: choice.passphrase ?? '' })]
}
