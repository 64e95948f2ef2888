import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import { subjectKinds } from '#road/subject.ts'
import type { KnownQuery } from '#journal/journal.ts'
import type { AddRoutes } from '../app-type.ts'
import type { KnownPage, ListedRow } from '../api-types.ts'
import { listedRow, readRow, rowOf, withDoubts } from '../known-row.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { AnySubject, KnownPageAnswer, KnownRowAnswer, count } from '../schemas/known.ts'

const separator = '~'

/** Where a page ended: the last row's time and subject. */
const Cursor = z
  .string()
  .transform((text) => text.split(separator))
  .pipe(z.tuple([Instant, AnySubject], 'the "next" of the page before'))

const Rows = z.strictObject({
  kind: z.enum(subjectKinds),
  standing: z
    .string()
    .transform((text) => text.split(',').filter((standing) => standing !== ''))
    .optional(),
  limit: count(1, 1000).default(100),
  after: Cursor.optional(),
  order: z.enum(['oldestFirst', 'newestFirst']).default('newestFirst'),
})

/** What is known, now or at an earlier entry. */
export const addKnownRoutes: AddRoutes = (app, { reader, now }) => {
  const tags = ['known']

  app.get(
    '/api/known',
    {
      schema: {
        tags,
        summary: 'Subjects of one kind, by when they came to stand where they stand',
        description:
          'Loads come without the report of the cycle (its verdict is there), the chemical indicators and the decision by ' +
          'pack: they are with the load, /api/known/load:….',
        querystring: Rows,
        response: answers({ schema: KnownPageAnswer, description: 'A page of subjects' }, 422),
      },
    },
    async (request, reply) => {
      const { kind, standing, limit, after, order } = request.query
      const query: KnownQuery = {
        limit,
        order,
        ...(standing === undefined ? {} : { standings: standing }),
        ...(after === undefined ? {} : { after: { since: after[0], subject: after[1] } }),
      }
      const found = (await reader.knownOfKind(kind, query)).map((row) => rowOf(kind, row))
      const rows = (await withDoubts(reader, found, now())).map(listedRow)
      const next = rows.length === limit ? cursorOf(rows.at(-1)) : null
      return reply.send({ rows, next } satisfies KnownPage)
    },
  )

  app.get(
    '/api/known/:subject',
    {
      schema: {
        tags,
        summary: 'What is known of a subject, now or when an earlier entry had just been kept',
        params: z.strictObject({ subject: AnySubject }),
        querystring: z.strictObject({ at: count(1, Number.MAX_SAFE_INTEGER).optional() }),
        response: answers(
          { schema: KnownRowAnswer, description: 'The subject, where it stands and since when' },
          404,
          422,
        ),
      },
    },
    async (request, reply) => {
      const { subject } = request.params
      const row = await readRow(reader, subject, request.query.at)
      if (row === undefined) return sendProblem(reply, notFound('subject', 'a subject that is known', subject))
      // What was known then is shown as it was then.
      if (request.query.at !== undefined) return row
      return (await withDoubts(reader, [row], now()))[0] ?? row
    },
  )
}

function cursorOf(row: ListedRow | undefined): string | null {
  return row === undefined ? null : `${row.since}${separator}${row.subject}`
}
