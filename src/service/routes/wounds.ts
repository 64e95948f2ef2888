import type { FastifyReply } from 'fastify'
import { z } from 'zod'
import { type SubjectId, subjectKind, subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import {
  CaseLineAnswer,
  ChartOfWoundsAnswer,
  DueCallAnswer,
  LookBackAnswer,
  RatesAnswer,
  SuspectsAnswer,
} from '../schemas/wounds.ts'
import { count } from '../schemas/known.ts'
import { readChart } from '../wounds/read-chart.ts'
import { callsDue } from '../wounds/calls-due.ts'
import { rateGroups, ratesBy } from '../wounds/rates-by.ts'
import { clustersFrom } from '../wounds/clusters.ts'
import { ClustersAnswer } from '../wounds/clusters-answer.ts'
import { asKnownChoices } from '../wounds/investigation-list.ts'
import { lookBack } from '../wounds/look-back.ts'
import { suspectsFrom, suspectsOfInvestigation } from '../wounds/suspects.ts'
import { infectionChoices } from '../wounds/suspects-answer.ts'
import { daysBefore, readLines } from '../wounds/read-lines.ts'

/** The register of wounds: who is to be called, the line list, the rates, and what the infected met. */
export const addWoundRoutes: AddRoutes = (app, { reader, now, compute }) => {
  const tags = ['wounds']

  app.get(
    '/api/wounds/calls',
    {
      schema: {
        tags,
        summary: 'Follow-up calls that are due or overdue, and those of the days to come',
        querystring: z.strictObject({ aheadDays: count(0, 60).default(7) }),
        response: answers({ schema: z.array(DueCallAnswer), description: 'Calls, the longest overdue first' }, 422),
      },
    },
    (request) => callsDue(reader, now(), request.query.aheadDays),
  )

  app.get(
    '/api/wounds/lines',
    {
      schema: {
        tags,
        summary: 'The line list: each operation of the last days with what became of its wound',
        querystring: z.strictObject({ days: count(1, 4000).default(365) }),
        response: answers({ schema: z.array(CaseLineAnswer), description: 'Operations, the oldest first' }, 422),
      },
    },
    (request) => {
      const time = now()
      return readLines(reader, time, daysBefore(time, request.query.days)).then(({ lines }) => lines)
    },
  )

  app.get(
    '/api/wounds/rates',
    {
      schema: {
        tags,
        summary: 'Rates of infection with their exact interval, and how far follow-up bounds them',
        querystring: z.strictObject({ by: z.enum(rateGroups).default('procedure'), days: count(1, 4000).default(365) }),
        response: answers({ schema: RatesAnswer, description: 'The rate of all, and of each group' }, 422),
      },
    },
    (request) => ratesBy(reader, now(), request.query.by, request.query.days),
  )

  app.get(
    '/api/wounds/suspects',
    {
      schema: {
        tags,
        summary: 'What the infected met more often than the others, ranked; an association, never a proof',
        querystring: z
          .strictObject({
            /** Days up to now, 180 when not said; an investigation has days of its own. */
            days: count(7, 2000).optional(),
            infections: z.enum(infectionChoices).default('all'),
            permutations: count(99, 99_999).default(9999),
            investigation: subjectOf('investigation').optional(),
            /** Of a closed investigation: as it was known at its closing, or as it is known now. */
            asKnown: z.enum(asKnownChoices).default('closing'),
          })
          .refine(({ days, investigation }) => days === undefined || investigation === undefined, {
            path: ['days'],
            error: 'no days beside an investigation, which has its own',
          }),
        response: answers({ schema: SuspectsAnswer, description: 'The ranking and its line list' }, 404, 422, 503),
      },
    },
    async (request, reply) => {
      const { investigation, days = 180, asKnown, ...asked } = request.query
      if (investigation === undefined) return await suspectsFrom(reader, compute, now(), { ...asked, days })
      return (
        (await suspectsOfInvestigation(reader, compute, investigation, { ...asked, asKnown })) ??
        sendUnknown(reply, investigation)
      )
    },
  )

  app.get(
    '/api/wounds/investigations/:investigation',
    {
      schema: {
        tags,
        summary: 'An investigation as its answer stands, and what entered the record since it was closed',
        params: z.strictObject({ investigation: subjectOf('investigation') }),
        response: answers(
          { schema: LookBackAnswer, description: 'As it was known at the closing, and apart from it what came after' },
          404,
          422,
        ),
      },
    },
    async (request, reply) => {
      const { investigation } = request.params
      return (await lookBack(reader, investigation)) ?? sendUnknown(reply, investigation)
    },
  )

  app.get(
    '/api/wounds/charts/:chart',
    {
      schema: {
        tags,
        summary: 'A chart of infections with the path that the record gives it',
        params: z.strictObject({ chart: subjectOf('chart') }),
        response: answers(
          { schema: ChartOfWoundsAnswer, description: 'Path, limit, distances, rate and fitted model' },
          404,
          422,
        ),
      },
    },
    async (request, reply) => {
      const { chart } = request.params
      return (await readChart(reader, chart, now())) ?? sendUnknown(reply, chart)
    },
  )

  app.get(
    '/api/wounds/clusters',
    {
      schema: {
        tags,
        summary: 'The closest groups of infections in time, and by theatre, steriliser and surgeon',
        querystring: z.strictObject({ days: count(14, 2000).default(180) }),
        response: answers(
          { schema: ClustersAnswer, description: 'Each with how often chance alone would bring it' },
          422,
          503,
        ),
      },
    },
    (request) => clustersFrom(reader, compute, now(), request.query.days),
  )
}

/** Answers that no investigation or chart of that name is on record. */
function sendUnknown(reply: FastifyReply, id: SubjectId<'investigation' | 'chart'>): FastifyReply {
  const kind = subjectKind(id)
  return sendProblem(reply, notFound(kind, `${kind === 'chart' ? 'a' : 'an'} ${kind} that is known`, id))
}
