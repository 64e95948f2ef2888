import { z } from 'zod'
import { Instant, instant, millis } from '#road/instant.ts'
import { isSubjectOf, subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import type { ListedRow } from '../api-types.ts'
import { listedRow, readRow } from '../known-row.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { KnownRowsAnswer, count } from '../schemas/known.ts'

/** The loads of a machine. */
export const addMachineRoutes: AddRoutes = (app, { reader }) => {
  app.get(
    '/api/machines/:machine/loads',
    {
      schema: {
        tags: ['known'],
        summary: 'Loads of a machine, the newest first',
        description: '`before` gives those built before that moment. They are as in a list of /api/known.',
        params: z.strictObject({ machine: subjectOf('machine') }),
        querystring: z.strictObject({ limit: count(1, 500).default(50), before: Instant.optional() }),
        response: answers({ schema: KnownRowsAnswer, description: 'Loads, the newest first' }, 404, 422),
      },
    },
    async (request, reply) => {
      const { machine } = request.params
      const { limit, before } = request.query
      if (!(await reader.known([machine])).has(machine)) {
        return sendProblem(reply, notFound('machine', 'a machine that is known', machine))
      }
      const links = await reader.links({
        end: 'to',
        subjects: [machine],
        relations: ['ranOn'],
        order: 'newestFirst',
        limit,
        ...(before === undefined ? {} : { until: instant(millis(before) - 1) }),
      })
      const loads = links.map((link) => link.from).filter((id) => isSubjectOf('load', id))
      const rows = await Promise.all(loads.map((load) => readRow(reader, load)))
      return rows.flatMap((row) => (row === undefined ? [] : [listedRow(row)])) satisfies ListedRow<'load'>[]
    },
  )
}
