import { z } from 'zod'
import { type SubjectKind, subjectKinds } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import type { ScanAnswer } from '#road/scanning/scan-answer.ts'
import type { FindAnswer } from '../api-types.ts'
import { findScanned } from '../find/find-scanned.ts'
import { findSubjects } from '../find/find-subjects.ts'
import { answers } from '../schemas/answers.ts'
import { AnySubject } from '../schemas/known.ts'

const Found = z.object({
  found: z.array(
    z.object({
      subject: AnySubject,
      kind: z.enum(subjectKinds satisfies readonly SubjectKind[]),
      standing: z.string(),
      title: z.string(),
      exact: z.boolean(),
    }),
  ),
})

const Element = z.object({
  identifier: z.string(),
  title: z.string(),
  data: z.string(),
  day: z.iso.date().optional(),
})

const symbol = z.string().nullable()

const Scanned = Found.extend({
  read: z.discriminatedUnion('is', [
    z.object({
      is: z.literal('elements'),
      symbol,
      elements: z.array(Element),
      product: z.object({
        gtin: z.string().optional(),
        lot: z.string().optional(),
        serial: z.string().optional(),
        expiresOn: z.iso.date().optional(),
        madeOn: z.iso.date().optional(),
        giai: z.string().optional(),
        grai: z.string().optional(),
        sscc: z.string().optional(),
      }),
      remark: z.string().optional(),
    }),
    z.object({ is: z.literal('own'), symbol, subject: AnySubject }),
    z.object({ is: z.literal('text'), symbol, text: z.string() }),
    z.object({
      is: z.literal('unusable'),
      symbol,
      fault: z.object({ field: z.string(), wanted: z.string(), current: z.string(), todo: z.string() }),
    }),
  ]),
  offers: z.array(
    z.discriminatedUnion('record', [
      z.object({
        record: z.literal('lot'),
        gtin: z.string(),
        number: z.string(),
        expiresOn: z.iso.date().optional(),
        madeOn: z.iso.date().optional(),
        like: AnySubject.optional(),
      }),
      z.object({ record: z.literal('item'), device: AnySubject, serial: z.string() }),
      z.object({ record: z.literal('device'), gtin: z.string() }),
    ]),
  ),
})

/** Scan or type: what it was decides where one lands. */
export const addFindRoutes: AddRoutes = (app, { reader, now }) => {
  app.get(
    '/api/find',
    {
      schema: {
        tags: ['known'],
        summary: 'Subjects with exactly this key, then those whose name or key holds the text',
        description:
          'Names of everything registered; of rounds, loads, cases, wounds and recalls the keys of the latest.',
        querystring: z.strictObject({ text: z.string().trim().min(1).max(120) }),
        response: answers({ schema: Found, description: 'What was found, exact first' }, 422),
      },
    },
    async (request, reply) =>
      reply.send({ found: await findSubjects(reader, request.query.text) } satisfies FindAnswer),
  )

  app.get(
    '/api/scan',
    {
      schema: {
        tags: ['known'],
        summary: 'What a scanned code says, what on record has it, and what may be recorded of it',
        description:
          'Element strings of GS1 as a scanner sends them (symbology identifier, separator %1D) or as they are printed, with brackets; subjects and keys of this record; plain text. `exact` marks what the code names in full. A code that cannot be used is an answer too: `read.is` is "unusable", with what was wanted, what came and what to do.',
        querystring: z.strictObject({ code: z.string().trim().min(1).max(500) }),
        response: answers({ schema: Scanned, description: 'What was read and found' }, 422),
      },
    },
    async (request, reply) => reply.send((await findScanned(reader, request.query.code, now())) satisfies ScanAnswer),
  )
}
