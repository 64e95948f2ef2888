import { z } from 'zod'
import { subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import type { CycleLogAnswer, CycleLogRequest, LoadCycleRequest } from '../api-types.ts'
import { keptLog, readInForce } from '../cycles/cycle-reader.ts'
import { readLoadChart } from '../cycles/read-load-chart.ts'
import { recordLoadCycle } from '../cycles/record-load-cycle.ts'
import { answerTo } from '../entries/record-entries.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, unusableInput } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { CycleChartAnswer, CycleLogAnswerSchema, CycleLogInput, LoadCycleInput } from '../schemas/cycle.ts'
import { EntryKeptAnswer } from '../schemas/entry.ts'
import { authoriseFor } from '../sign-in/authorise-entry.ts'

/** Logs of cycles: read, drawn, and recorded with what was read from them. */
export const addCycleRoutes: AddRoutes = (app, context) => {
  const tags = ['cycles']
  const loadAddress = z.strictObject({ load: subjectOf('load') })
  const bodyLimit = context.config.attachmentLimitBytes

  app.post(
    '/api/cycle-logs/read',
    {
      bodyLimit,
      schema: {
        tags,
        summary: 'Read a steriliser log against a programme, keeping nothing',
        description:
          'The machine gives the volume of its chamber, and the map of its columns when none is sent. A cycle is read by the ' +
          'limits that were in force when it began: `startedAt` says so for a log that does not name date, time and zone.',
        body: CycleLogInput,
        response: answers(
          { schema: CycleLogAnswerSchema, description: 'Each cycle with its report and its curves' },
          400,
          404,
          413,
          415,
          422,
          503,
        ),
      },
    },
    async (request, reply) => {
      const { log, startedAt, ...asked } = request.body satisfies CycleLogRequest
      const text = 'text' in log ? log.text : await keptLog(context, log.digest)
      if (text === undefined) return sendProblem(reply, notFound('log.digest', 'the digest of a kept file', 'unknown'))
      const read = await readInForce(context, { machine: undefined, ...asked, text, startedAt })
      if ('problems' in read) return sendProblem(reply, unusableInput(read.problems))
      const { program, cycles, notes } = read
      return reply.send({ program, cycles, ...(notes && { notes }) } satisfies CycleLogAnswer)
    },
  )

  app.get(
    '/api/loads/:load/chart',
    {
      schema: {
        tags,
        summary: 'The curves of the cycle that a load was run with',
        params: loadAddress,
        response: answers({ schema: CycleChartAnswer, description: 'Curves, phases and plateau' }, 404, 422, 503),
      },
    },
    async (request, reply) => {
      const { load } = request.params
      const read = await readLoadChart(context, load)
      switch (read.kind) {
        case 'chart':
          return reply.send(read.chart)
        case 'noCycle':
          return sendProblem(reply, notFound('load', 'a load whose cycle is logged', load))
        case 'unusable':
          return sendProblem(reply, unusableInput(read.problems))
      }
    },
  )

  app.post(
    '/api/loads/:load/cycle',
    {
      bodyLimit,
      schema: {
        tags,
        summary: 'Keep a log, read it, and record the cycle of a load with what was read',
        description:
          'The id makes a repeat harmless. `arrived` names a log that came from the machine by itself, in place of its text. `startedAt` is needed when the log does not name date, time and zone.',
        params: loadAddress,
        body: LoadCycleInput,
        response: answers(
          { schema: EntryKeptAnswer, description: '201 kept; 200 kept before', status: 201, also: 200 },
          400,
          404,
          409,
          413,
          415,
          422,
          503,
        ),
      },
    },
    async (request, reply) => {
      const { load } = request.params
      const authorise = authoriseFor(context, request.who)
      const parts = { ...context, arrivals: context.intake.arrivals }
      const recorded = await recordLoadCycle(parts, load, request.body satisfies LoadCycleRequest, authorise)
      switch (recorded.kind) {
        case 'outcome':
          return answerTo(reply, recorded.outcome)
        case 'noLoad':
          return sendProblem(reply, notFound('load', 'a load that is known', load))
        case 'unusable':
          return sendProblem(reply, unusableInput(recorded.problems))
      }
    },
  )
}
