import { z } from 'zod'
import { ListMapping } from '#road/list-import/mapping.ts'
import { keepIdentities } from '#road/people/limits.ts'
import { namesCases } from '#road/people/rights.ts'
import type { AddRoutes } from '../app-type.ts'
import type { ListImportAnswer, ListPreview } from '../exchange-answers.ts'
import { keepMapping, previewList, readMapping, recordList } from '../list-import/list-import.ts'
import { sendProblem } from '../problem-reply.ts'
import { listBusy, listChanged } from '../list-import/problems.ts'
import { answers } from '../schemas/answers.ts'
import { ListConfirmedInput, ListInput, ListPreviewAnswer, ListRecordedAnswer } from '../schemas/list-import.ts'
import { authoriseFor } from '../sign-in/authorise-entry.ts'
import { signedInOf } from '../sign-in/gate.ts'

/** Operating lists of other systems: looked at, confirmed, recorded. */
export const addListImportRoutes: AddRoutes = (app, context) => {
  const { config, identities, signIn, now } = context
  const tags = ['list import']

  app.get(
    '/api/list-import/mapping',
    {
      schema: {
        tags,
        summary: 'How the unit reads the lists of another system',
        response: answers({ schema: ListMapping, description: 'Columns, theatres and surgeons by their names there' }),
      },
    },
    () => readMapping(context),
  )

  app.put(
    '/api/list-import/mapping',
    {
      schema: {
        tags,
        summary: 'Keep how the lists of another system are read; no entry is made of it',
        body: ListMapping,
        response: answers({ schema: z.object({ done: z.literal(true) }), description: 'Kept' }, 400, 413, 415, 422),
      },
    },
    async (request, reply) => {
      await keepMapping(context, request.body)
      return reply.send({ done: true } as const)
    },
  )

  app.post(
    '/api/list-import/preview',
    {
      bodyLimit: config.entriesLimitBytes,
      schema: {
        tags,
        summary:
          'What a list would book, move and cancel, and what of it cannot be read, line by line; nothing is written',
        description: 'Takes CSV, iCalendar (RFC 5545) or messages of HL7 version 2 (SIU).',
        body: ListInput,
        response: answers(
          { schema: ListPreviewAnswer, description: 'The changes, with their digest' },
          400,
          413,
          415,
          422,
        ),
      },
    },
    async (request, reply) => reply.send((await previewList(context, request.body, now())) satisfies ListPreview),
  )

  app.post(
    '/api/list-import',
    {
      bodyLimit: config.entriesLimitBytes,
      schema: {
        tags,
        summary: 'Record the changes of a list that a person has looked at and confirmed',
        description:
          'The same list confirmed twice changes nothing the second time. Who a patient is goes beside the record, where the ' +
          'unit keeps that and whoever confirms may write it down; else it is left out.',
        body: ListConfirmedInput,
        response: answers({ schema: ListRecordedAnswer, description: 'What became of each' }, 400, 409, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const who = signedInOf(request)
      const mayName = who?.roles.some((role) => namesCases.includes(role)) === true
      const unitKeeps = mayName && (await signIn.policy()).limit(keepIdentities).value
      const done = await recordList(context, request.body, {
        now: now(),
        authorise: authoriseFor(context, request.who),
        identities: unitKeeps ? identities : null,
      })
      switch (done.kind) {
        case 'recorded':
          return reply.send(done.answer satisfies ListImportAnswer)
        case 'changed':
          return sendProblem(reply, listChanged())
        case 'busy':
          return sendProblem(reply, listBusy())
      }
    },
  )
}
