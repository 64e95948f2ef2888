import { z } from 'zod'
import { subjectOf } from '#road/subject.ts'
import { labelStock, offeredStocks } from '#road/packing/labels/stock.ts'
import { zplLabel } from '#road/packing/labels/zpl.ts'
import type { AddRoutes } from '../app-type.ts'
import { labelOfRound, type LabelMade } from '../labels/label-of-round.ts'
import { noPrinter, printerFailed } from '../labels/label-problems.ts'
import { pdfLabel } from '../labels/pdf-label.ts'
import { sendToPrinter } from '../labels/send-to-printer.ts'
import { svgLabel } from '../labels/svg-label.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, unusableInput } from '../problems.ts'
import { answers, rawAnswer } from '../schemas/answers.ts'
import { count } from '../schemas/known.ts'

const Stock = z.string().max(12).optional()
const Bars = z.enum(['no', 'yes']).default('no')
const Dots = z.enum(['8', '12']).default('8')
const wantsRound = 'a round that is on record'

/** Labels of packs: to look at, to print from a computer, and for a label printer. */
export const addLabelRoutes: AddRoutes = (app, { reader, now, config }) => {
  const tags = ['labels']
  const params = z.strictObject({ round: subjectOf('round') })

  app.get(
    '/api/rounds/:round/label',
    {
      schema: {
        tags,
        summary: 'The label of a sealed pack as it stands now',
        description:
          `As a picture (svg), a document of exactly the size of the label (pdf), or the text that a label printer takes (zpl). ` +
          `The size is that of the limit ${labelStock.id}, or any other in mm; offered are ${offeredStocks.join(', ')}.`,
        params,
        querystring: z.strictObject({
          as: z.enum(['svg', 'pdf', 'zpl']),
          stock: Stock,
          bars: Bars,
          dots: Dots,
          copies: count(1, 20).default(1),
        }),
        response: rawAnswer('The label', 'application/octet-stream', 404, 422),
      },
    },
    async (request, reply) => {
      const { as, stock, bars, dots, copies } = request.query
      const { round } = request.params
      const made = await labelOfRound(reader, { round, stock, bars: bars === 'yes' }, now())
      if (made.is !== 'label') return sendProblem(reply, problemOf(made, round))
      const { text, layout, codes } = made
      const raw = reply.serializer((value: unknown) => value as string).header('cache-control', 'no-store')
      const saved = (ending: string) => `attachment; filename="label-${text.key}.${ending}"`
      switch (as) {
        case 'svg':
          // Shown as a picture; opened by itself it is a page, which may load and run nothing.
          return raw.type('image/svg+xml').send(svgLabel(text, layout, codes))
        case 'pdf':
          return raw
            .type('application/pdf')
            .header('content-disposition', saved('pdf'))
            .send(Buffer.from(await pdfLabel(text, layout, { codes, copies })))
        case 'zpl':
          return raw
            .type('text/plain; charset=utf-8')
            .header('content-disposition', saved('zpl'))
            .send(zplLabel(text, layout, { dots: dots === '8' ? 8 : 12, copies }))
      }
    },
  )

  app.get(
    '/api/label-printer',
    {
      schema: {
        tags,
        summary: 'Whether a label printer was set up for this service',
        response: answers({ schema: z.object({ isSet: z.boolean() }), description: 'Whether there is one' }),
      },
    },
    async (_request, reply) => reply.send({ isSet: config.labelPrinter !== null }),
  )

  app.post(
    '/api/rounds/:round/label/print',
    {
      schema: {
        tags,
        summary: 'Send the label of a pack to the label printer of this service',
        description:
          'As ZPL, to the address in NILGROWTH_LABEL_PRINTER and to no other. That it was sent is known, not that a label came out.',
        params,
        body: z.strictObject({ stock: Stock, bars: Bars, dots: Dots, copies: z.int().min(1).max(20).default(1) }),
        response: answers(
          { schema: z.object({ sent: z.literal(true) }), description: 'It was sent' },
          400,
          404,
          413,
          415,
          422,
          501,
          503,
        ),
      },
    },
    async (request, reply) => {
      const { stock, bars, dots, copies } = request.body
      const { round } = request.params
      if (config.labelPrinter === null) return sendProblem(reply, noPrinter)
      const made = await labelOfRound(reader, { round, stock, bars: bars === 'yes' }, now())
      if (made.is !== 'label') return sendProblem(reply, problemOf(made, round))
      const zpl = zplLabel(made.text, made.layout, { dots: dots === '8' ? 8 : 12, copies })
      const failed = await sendToPrinter(config.labelPrinter, zpl)
      if (failed !== undefined) return sendProblem(reply, printerFailed(config.labelPrinter, failed))
      return reply.send({ sent: true as const })
    },
  )
}

function problemOf(made: Exclude<LabelMade, { is: 'label' }>, round: string) {
  return made.is === 'unknown' ? notFound('round', wantsRound, round) : unusableInput([made.problem])
}
