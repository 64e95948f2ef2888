import { z } from 'zod'
import type { AddRoutes } from '../app-type.ts'
import type { TableRow } from '../exchange-answers.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, unusableInput } from '../problems.ts'
import { sendPieces } from '../send-pieces.ts'
import { answers, rawAnswer } from '../schemas/answers.ts'
import { PeriodInput, periodOf } from '../tables/period.ts'
import { tableForms, tableNamed, tables } from '../tables/tables.ts'
import { tableSheet, tableText, tableTypes } from '../tables/write-table.ts'

const TableAnswer = z.object({
  name: z.string(),
  title: z.string(),
  rowIs: z.string(),
  periodBy: z.string(),
  columns: z.array(z.object({ name: z.string(), type: z.enum(['text', 'number', 'moment', 'yesNo']) })),
})

/** What the program lists, as tables for other programs. */
export const addTableRoutes: AddRoutes = (app, { reader, site, now }) => {
  const tags = ['tables']

  app.get(
    '/api/tables',
    {
      schema: {
        tags,
        summary: 'The tables that can be taken out, with their columns',
        response: answers({ schema: z.array(TableAnswer), description: 'The closed list of tables' }),
      },
    },
    () =>
      tables.map(({ name, title, rowIs, periodBy, columns }) => ({
        name,
        title,
        rowIs,
        periodBy,
        columns: [...columns],
      })) satisfies TableRow[],
  )

  app.get(
    '/api/tables/:name',
    {
      schema: {
        tags,
        summary: 'A table as CSV, as a sheet (XLSX) or as JSON, an object a line',
        description:
          'Patients stand there by their number alone. Names of columns have the unit in them; moments are in UTC.',
        params: z.strictObject({ name: z.string() }),
        querystring: z.strictObject({ as: z.enum(tableForms).default('csv'), ...PeriodInput.shape }),
        response: rawAnswer('The table', 'text/csv', 404, 422),
      },
    },
    async (request, reply) => {
      const table = tableNamed(request.params.name)
      if (table === undefined)
        return sendProblem(
          reply,
          notFound('name', `one of ${tables.map(({ name }) => name).join(', ')}`, request.params.name),
        )
      const { as, from, to } = request.query
      const [unit] = await reader.knownOfKind('unit', { limit: 1 })
      const period = periodOf({ from, to }, unit?.known.timeZone ?? 'UTC')
      reply
        .type(tableTypes[as])
        .header('cache-control', 'no-store')
        .header('content-disposition', `attachment; filename="${site}-${table.name}-${now().slice(0, 10)}.${as}"`)
      if (as !== 'xlsx') return await sendPieces(reply, tableText(table, as, { reader, period }))
      const sheet = await tableSheet(table, { reader, period })
      if (sheet.kind === 'tooLong') {
        const current = `more than ${sheet.most} rows`
        const wanted = `at most ${sheet.most} rows in a sheet: take a shorter period, or CSV`
        return sendProblem(reply.removeHeader('content-disposition'), unusableInput([{ field: 'as', wanted, current }]))
      }
      return reply.serializer((value: unknown) => value as string).send(Buffer.from(sheet.bytes))
    },
  )
}
