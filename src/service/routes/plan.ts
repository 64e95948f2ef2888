import { z } from 'zod'
import type { AddRoutes } from '../app-type.ts'
import { goneSignal } from '../gone-signal.ts'
import { inTurn } from '../planning/in-turn.ts'
import { planOfDay } from '../planning/plan-of-day.ts'
import { simulateDay } from '../planning/simulate-day.ts'
import { answers } from '../schemas/answers.ts'
import { PlanAskedInput, PlanOfDayAnswer, SimulateInput, SimulationAnswer } from '../schemas/plan.ts'

/** The lists of a day: made from the record, planned, explained, and held against an order of somebody's own. */
export const addPlanRoutes: AddRoutes = (app, { reader, compute, now }) => {
  const tags = ['plan']
  // What lies before the reckoning of a computer, or long after us, is no day of a list.
  const isOfOurs = (day: string): boolean => day >= '1970-01-01' && day < '2200-01-01'
  const params = z.strictObject({ day: z.iso.date().refine(isOfOurs, 'a day from 1970-01-01 to 2199-12-31') })
  // One day at a time: a proof takes a processor and much memory. A simulation plans a day a dozen times, and whoever moves a
  // case must not wait for that: it has a queue of its own.
  const planInTurn = inTurn()
  const simulateInTurn = inTurn()
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
    (request, reply) => {
      const asked = { seconds: request.query.seconds, signal: goneSignal(reply.raw) }
      return planInTurn(() => planOfDay({ reader, compute }, request.params.day, now(), asked))
    },
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
    (request, reply) => {
      const asked = { ...request.body, signal: goneSignal(reply.raw) }
      return planInTurn(() => planOfDay({ reader, compute }, request.params.day, now(), asked))
    },
  )

  app.post(
    '/api/plan/:day/simulate',
    {
      schema: {
        tags,
        summary: 'Run the plan of a day many times, and what each purchase would save',
        description: 'Durations vary as on record; a saving between plans that are not proven carries a warning.',
        params,
        body: SimulateInput,
        response: answers(
          { schema: SimulationAnswer, description: 'Chances and savings with their standard errors' },
          400,
          413,
          415,
          422,
          503,
        ),
      },
    },
    (request, reply) => {
      const asked = { ...request.body, signal: goneSignal(reply.raw) }
      return simulateInTurn(() => simulateDay({ reader, compute }, request.params.day, now(), asked))
    },
  )
}
