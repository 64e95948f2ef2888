import { z } from 'zod'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { type SubjectId, subjectKey, subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import { loadRecord } from '../printing/load-record.ts'
import { monthReport } from '../printing/month-report.ts'
import { mostPrintSeconds, printAside } from '../printing/print-aside.ts'
import type { PrintAsked } from '../printing/print-parts.ts'
import { pageNotSet } from '../printing/print-problem.ts'
import type { PrintedPage } from '../printing/printed-page.ts'
import { recallNotice } from '../printing/recall-notice.ts'
import { stepCardPage } from '../printing/step-card-page.ts'
import { monthForm } from '../read-month.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound } from '../problems.ts'
import { rawAnswer } from '../schemas/answers.ts'

/** Pages for paper, in PDF. */
export const addPrintingRoutes: AddRoutes = (app, context) => {
  const querystring = z.strictObject({ by: z.string().max(80).optional() })
  const described = (summary: string) => ({
    tags: ['printing'],
    summary,
    description: 'Whoever is signed in stands on it as who printed it; without sign-in `by` says who it is.',
    querystring,
    response: rawAnswer('A document in PDF', 'application/pdf', 404, 422, 503),
  })
  const askedBy = ({ who }: FastifyRequest, by = 'somebody who is not signed in'): PrintAsked => ({
    by: who.kind === 'person' ? who.name : by,
    now: context.now(),
  })

  app.get(
    '/api/loads/:load/record.pdf',
    {
      schema: {
        ...described('The record of a load for paper: cycle, curves, indicators, decision'),
        params: z.strictObject({ load: subjectOf('load') }),
      },
    },
    async (request, reply) => {
      const { load } = request.params
      return await answerPage(reply, load, await loadRecord(context, load, askedBy(request, request.query.by)))
    },
  )

  app.get(
    '/api/recalls/:recall/notice.pdf',
    {
      schema: {
        ...described('The notice of a recall for paper: what failed, how far it reaches, each pack to be ticked off'),
        params: z.strictObject({ recall: subjectOf('recall') }),
      },
    },
    async (request, reply) => {
      const { recall } = request.params
      return await answerPage(reply, recall, await recallNotice(context, recall, askedBy(request, request.query.by)))
    },
  )

  app.get(
    '/api/devices/:device/step-card.pdf',
    {
      schema: {
        ...described('The step card of a device for paper, each step with its source'),
        params: z.strictObject({ device: subjectOf('device') }),
        querystring: querystring.extend({ use: z.string().max(120).optional() }),
      },
    },
    async (request, reply) => {
      const { device } = request.params
      return await answerPage(
        reply,
        device,
        await stepCardPage(context, device, { ...askedBy(request, request.query.by), use: request.query.use }),
      )
    },
  )

  app.get(
    '/api/months/:month/report.pdf',
    {
      schema: {
        ...described('The quality report of a month for paper: failures, indicators, infections, completeness'),
        params: z.strictObject({ month: z.string().regex(monthForm, 'a month such as 2026-08') }),
      },
    },
    async (request, reply) => {
      const { month } = request.params
      const page = await monthReport(context, month, askedBy(request, request.query.by))
      return await sendPdf(reply, `quality-${month}`, page)
    },
  )
}

async function answerPage(reply: FastifyReply, of: SubjectId, page: PrintedPage | undefined): Promise<FastifyReply> {
  if (page === undefined) return sendProblem(reply, notFound('subject', 'what is on record', of))
  return await sendPdf(reply, `${of.split(':')[0] ?? ''}-${subjectKey(of)}`, page)
}

async function sendPdf(reply: FastifyReply, name: string, page: PrintedPage): Promise<FastifyReply> {
  const printed = await printAside(page)
  if (printed.kind === 'tooLong') return sendProblem(reply, pageNotSet(mostPrintSeconds))
  return reply
    .type('application/pdf')
    .header('content-disposition', `inline; filename="${fileName(name)}.pdf"`)
    .header('cache-control', 'private, no-store')
    .serializer((value: unknown) => value as string)
    .send(Buffer.from(printed.bytes))
}

function fileName(key: string): string {
  return key.replaceAll(/[^a-z0-9-]/gi, '-')
}
