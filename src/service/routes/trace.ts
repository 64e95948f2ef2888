import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import { relations } from '#road/link.ts'
import { trace } from '#road/tracing/trace.ts'
import type { AddRoutes } from '../app-type.ts'
import type { TraceAnswer } from '../api-types.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { AnySubject } from '../schemas/known.ts'

const Trace = z.object({
  start: AnySubject,
  nodes: z.array(
    z.object({
      subject: AnySubject,
      standing: z.string().nullable(),
      title: z.string(),
      distance: z.int(),
      at: Instant.nullable(),
    }),
  ),
  links: z.array(
    z.object({ from: AnySubject, relation: z.enum(relations), to: AnySubject, at: Instant, entry: z.string() }),
  ),
  more: z.array(AnySubject),
})

/** From any subject back to what may have caused it, and forward to what it reached. */
export const addTraceRoutes: AddRoutes = (app, { reader }) => {
  app.get(
    '/api/trace/:subject',
    {
      schema: {
        tags: ['trace'],
        summary: 'What hangs together with a subject, back and forward',
        params: z.strictObject({ subject: AnySubject }),
        querystring: z.strictObject({ direction: z.enum(['back', 'forward', 'both']).default('both') }),
        response: answers(
          { schema: Trace, description: 'Subjects, and the links with the entries that made them' },
          404,
          422,
        ),
      },
    },
    async (request, reply) => {
      const { subject } = request.params
      if (!(await reader.known([subject])).has(subject)) {
        return sendProblem(reply, notFound('subject', 'a subject that is known', subject))
      }
      return (await trace(reader, subject, request.query.direction)) satisfies TraceAnswer
    },
  )
}
