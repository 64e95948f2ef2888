import type { FastifyReply } from 'fastify'
import { z } from 'zod'
import { keepIdentities } from '#road/people/limits.ts'
import { subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import { sendProblem } from '../problem-reply.ts'
import { identitiesNotKept, identityUnreadable, notFound, notSignedIn } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import {
  IdentitiesFoundSchema,
  IdentityInput,
  IdentityLogSchema,
  IdentitySearchInput,
  IdentitySeenSchema,
  IdentityStateSchema,
  ReasonInput,
} from '../schemas/identities.ts'
import { signedInOf } from '../sign-in/gate.ts'

const done = z.object({ done: z.literal(true) })
const Page = z.strictObject({
  case: subjectOf('case').optional(),
  before: z.uuid().optional(),
  limit: z.coerce.number().int().min(1).max(500).default(100),
})

/** Who a patient is, apart from the record: each look has a reason and is logged. */
export const addIdentityRoutes: AddRoutes = (app, { identities, identityStore, signIn, reader }) => {
  const tags = ['identities']
  const address = z.strictObject({ case: subjectOf('case') })
  const unitKeeps = async (): Promise<boolean> => (await signIn.policy()).limit(keepIdentities).value
  const none = (reply: FastifyReply, caseId: string) =>
    sendProblem(reply, notFound('case', 'a case whose patient’s identity is kept', caseId))

  app.get(
    '/api/cases/:case/identity',
    {
      schema: {
        tags,
        summary: 'Whether it is kept who this patient is; nothing of it is shown',
        params: address,
        response: answers({ schema: IdentityStateSchema, description: 'Kept, erased or none' }, 422),
      },
    },
    async (request, reply) => {
      const state = await identityStore.state(request.params.case)
      return reply.send({ unitKeeps: await unitKeeps(), is: state?.is ?? 'none', at: state?.keptAt ?? null })
    },
  )

  app.put(
    '/api/cases/:case/identity',
    {
      schema: {
        tags,
        summary: 'Write down who this patient is, encrypted and apart from the record',
        description: 'A field that is left out stays as it was written before. No entry is made of it.',
        params: address,
        body: IdentityInput,
        response: answers({ schema: done, description: 'Kept' }, 400, 404, 409, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      // Where nobody signs in, nobody could be held to what they looked at.
      if (by === undefined) return sendProblem(reply, notSignedIn())
      if (!(await unitKeeps())) return sendProblem(reply, identitiesNotKept())
      const caseId = request.params.case
      if (!(await reader.known([caseId])).has(caseId))
        return sendProblem(reply, notFound('case', 'a case on record', caseId))
      await identities.keep(caseId, request.body.identity, { by: by.person, why: request.body.why })
      return { done: true } as const
    },
  )

  app.post(
    '/api/cases/:case/identity/see',
    {
      schema: {
        tags,
        summary: 'See who this patient is; it is logged who looked, and why',
        params: address,
        body: ReasonInput,
        response: answers({ schema: IdentitySeenSchema, description: 'Who it is' }, 400, 404, 409, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const caseId = request.params.case
      const seen = await identities.see(caseId, { by: by.person, why: request.body.why })
      switch (seen.kind) {
        case 'none':
        case 'erased':
          return none(reply, caseId)
        case 'unreadable':
          return sendProblem(reply, identityUnreadable())
        case 'seen':
          return { identity: seen.identity, keptAt: seen.keptAt }
      }
    },
  )

  app.post(
    '/api/cases/:case/identity/erase',
    {
      schema: {
        tags,
        summary: 'Erase who this patient is; the record of the case stays, under its number',
        params: address,
        body: ReasonInput,
        response: answers({ schema: done, description: 'Erased' }, 400, 404, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const caseId = request.params.case
      const erased = await identities.erase(caseId, { by: by.person, why: request.body.why })
      return erased ? ({ done: true } as const) : none(reply, caseId)
    },
  )

  app.post(
    '/api/identities/search',
    {
      schema: {
        tags,
        summary: 'The cases of a patient by name, number, day of birth or telephone, at most twenty',
        description: 'The search is logged, and each patient that it shows as seen. What was searched for is not.',
        body: IdentitySearchInput,
        response: answers({ schema: IdentitiesFoundSchema, description: 'Those found' }, 400, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const { text, why } = request.body
      return { found: [...(await identities.search(text, { by: by.person, why }))] }
    },
  )

  app.get(
    '/api/identities/log',
    {
      schema: {
        tags,
        summary: 'Who saw, wrote or erased which patient’s identity, and why; the newest first',
        querystring: Page,
        response: answers({ schema: IdentityLogSchema, description: 'A page of lines' }, 422),
      },
    },
    async (request, reply) => {
      const { case: caseId, before, limit } = request.query
      const lines = await identityStore.accesses({ limit, ...(caseId && { case: caseId }), ...(before && { before }) })
      return reply.send({ lines, next: lines.length === limit ? (lines.at(-1)?.id ?? null) : null })
    },
  )
}
