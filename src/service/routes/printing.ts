import { z } from 'zod'
import { subjectKey, subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import { loadRecord } from '../printing/load-record.ts'
import { printAside } from '../printing/print-aside.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound } from '../problems.ts'
import { rawAnswer } from '../schemas/answers.ts'

/** Pages for paper, in PDF. */
export const addPrintingRoutes: AddRoutes = (app, context) => {
  app.get(
    '/api/loads/:load/record.pdf',
    {
      schema: {
        tags: ['printing'],
        summary: 'The record of a load for paper: cycle, curves, indicators, decision',
        description: 'Whoever is signed in stands on it as who printed it; without sign-in `by` says who it is.',
        params: z.strictObject({ load: subjectOf('load') }),
        querystring: z.strictObject({ by: z.string().max(80).optional() }),
        response: rawAnswer('A document in PDF', 'application/pdf', 404, 422, 503),
      },
    },
    async (request, reply) => {
      const { load } = request.params
      const { who } = request
      const by = who.kind === 'person' ? who.name : (request.query.by ?? 'somebody who is not signed in')
      const page = await loadRecord(context, load, { by, now: context.now() })
      if (page === undefined) return sendProblem(reply, notFound('load', 'a load that is known', load))
      const bytes = await printAside(page)
      return reply
        .type('application/pdf')
        .header('content-disposition', `inline; filename="load-${fileName(subjectKey(load))}.pdf"`)
        .header('cache-control', 'private, no-store')
        .serializer((value: unknown) => value as string)
        .send(Buffer.from(bytes))
    },
  )
}

function fileName(key: string): string {
  return key.replaceAll(/[^a-z0-9-]/gi, '-')
}
