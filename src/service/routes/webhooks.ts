import type { FastifyReply } from 'fastify'
import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import type { AddRoutes } from '../app-type.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, unusableInput } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { whyNoTarget } from '../webhooks/post.ts'
import { Delivery, WebhookKinds, WebhookState } from '../webhooks/webhook.ts'

const Shown = z.object({
  id: z.string(),
  url: z.string(),
  kinds: z.array(z.string()),
  madeAt: Instant,
  ...WebhookState.shape,
  behind: z.int(),
})
const Made = z.object({
  id: z.string(),
  url: z.string(),
  kinds: z.array(z.string()),
  madeAt: Instant,
  secret: z.string(),
})
const WebhookInput = z.strictObject({ url: z.string().min(1).max(500), kinds: WebhookKinds })
const Address = z.strictObject({ id: z.uuid() })
const done = z.object({ done: z.literal(true) })

/** Other systems that are told of entries. */
export const addWebhookRoutes: AddRoutes = (app, { webhooks, config }) => {
  const tags = ['webhooks']
  const none = (reply: FastifyReply, id: string) => sendProblem(reply, notFound('id', 'the id of a webhook', id))

  app.get(
    '/api/webhooks',
    {
      schema: {
        tags,
        summary: 'Who is told of entries, how far each has come, and the last deliveries; no secrets',
        response: answers({ schema: z.array(Shown), description: 'All webhooks of the unit' }),
      },
    },
    async (_request, reply) =>
      reply.send([...(await webhooks.list())].map((each) => ({ ...each, kinds: [...each.kinds] }))),
  )

  app.post(
    '/api/webhooks',
    {
      schema: {
        tags,
        summary: 'Have an address told of entries from now on; the secret that signs is shown this once',
        body: WebhookInput,
        response: answers(
          { schema: Made, description: 'The webhook with its secret', status: 201 },
          400,
          413,
          415,
          422,
        ),
      },
    },
    async (request, reply) => {
      const why = whyNoTarget(request.body.url, config.webhooksPrivate)
      if (why !== undefined)
        return sendProblem(
          reply,
          unusableInput([{ field: 'url', wanted: why, current: JSON.stringify(request.body.url.slice(0, 120)) }]),
        )
      return reply.code(201).send(await webhooks.add(request.body))
    },
  )

  app.post(
    '/api/webhooks/:id/end',
    {
      schema: {
        tags,
        summary: 'Tell an address no more',
        params: Address,
        response: answers({ schema: done, description: 'Ended' }, 404, 422),
      },
    },
    async (request, reply) =>
      (await webhooks.remove(request.params.id)) ? { done: true as const } : none(reply, request.params.id),
  )

  app.post(
    '/api/webhooks/:id/resume',
    {
      schema: {
        tags,
        summary: 'Go on where it had stopped, at once',
        params: Address,
        response: answers({ schema: done, description: 'It goes on' }, 404, 422),
      },
    },
    async (request, reply) =>
      (await webhooks.resume(request.params.id)) ? { done: true as const } : none(reply, request.params.id),
  )

  app.post(
    '/api/webhooks/:id/test',
    {
      schema: {
        tags,
        summary: 'Send a signed message that is no entry, and say what came of it',
        params: Address,
        response: answers({ schema: Delivery, description: 'What was answered' }, 404, 422),
      },
    },
    async (request, reply) => (await webhooks.test(request.params.id)) ?? none(reply, request.params.id),
  )
}
