import { z } from 'zod'
import type { AddRoutes } from '../app-type.ts'
import { type PlanAsked, type PlanOfDay, planOfDay } from '../planning/plan-of-day.ts'
import { answers } from '../schemas/answers.ts'
import { PlanAskedInput, PlanOfDayAnswer } from '../schemas/plan.ts'

/** The lists of a day: made from the record, planned, explained, and held against an order of somebody's own. */
export const addPlanRoutes: AddRoutes = (app, { reader, compute, now }) => {
  const tags = ['plan']
  const params = z.strictObject({ day: z.iso.date() })
  // One day at a time: a proof takes a processor and much memory.
  let queue: Promise<unknown> = Promise.resolve()
  const inTurn = (day: string, asked: PlanAsked): Promise<PlanOfDay> => {
    const mine = queue.then(() => planOfDay({ reader, compute }, day, now(), asked))
    queue = mine.catch(() => {})
    return mine
  }
  const good = { schema: PlanOfDayAnswer, description: 'The day, its plan with its bound, and why it is so' }

  app.get(
    '/api/plan/:day',
    {
      schema: {
        tags,
        summary: 'Plan the lists of a day from the record',
        description: 'Nothing is kept: a plan that is chosen is recorded as list-planned.',
        params,
        querystring: z.strictObject({ seconds: z.coerce.number().min(0.1).max(30).default(2) }),
        response: answers(good, 422, 503),
      },
    },
    (request) => inTurn(request.params.day, { seconds: request.query.seconds }),
  )

  app.post(
    '/api/plan/:day',
    {
      schema: {
        tags,
        summary: 'Hold an order of your own against the best plan, try fixed places, or plan again from now',
        description: 'What the order breaks and costs is in `given`; the least disturbance is in `replanned`.',
        params,
        body: PlanAskedInput,
        response: answers(good, 400, 413, 415, 422, 503),
      },
    },
    (request) => inTurn(request.params.day, request.body),
  )
}
