import { z } from 'zod'
import { lockMinutes } from '#road/people/limits.ts'
import type { AddRoutes } from '../app-type.ts'
import { sendProblem, sendWait } from '../problem-reply.ts'
import { notFound, notSignedIn, passkeyRefused, wrongSecret } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { PasskeyInput, PasskeyOptionsSchema, PasskeysSchema } from '../schemas/sign-in.ts'
import { broughtBy } from '../sign-in/cookies.ts'
import { signedInOf } from '../sign-in/gate.ts'

const done = z.object({ done: z.literal(true) })

/** The passkeys of whoever is signed in, and what an authenticator is to sign. */
export const addPasskeyRoutes: AddRoutes = (app, { passkeys, credentials, signIn, rates }) => {
  const tags = ['sign-in']

  app.post(
    '/api/passkeys/challenge',
    {
      schema: {
        tags,
        summary: 'What an authenticator is to sign, to sign in or to sign an entry by passkey',
        response: answers({ schema: PasskeyOptionsSchema, description: 'Options for the browser, good for minutes' }),
      },
    },
    async (request, reply) => reply.send(await passkeys.optionsToProve(broughtBy(request).address)),
  )

  app.get(
    '/api/me/passkeys',
    {
      schema: {
        tags,
        summary: 'One’s own passkeys',
        response: answers({ schema: PasskeysSchema, description: 'In the order in which they were kept' }),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const own = await credentials.passkeysOf(by.person)
      return own.map(({ id, name, host, keptAt, usedAt }) => ({ id, name, host, keptAt, usedAt }))
    },
  )

  app.post(
    '/api/me/passkeys/challenge',
    {
      schema: {
        tags,
        summary: 'What a browser is to ask an authenticator for, to make a passkey',
        response: answers({ schema: PasskeyOptionsSchema, description: 'Options for the browser, good for minutes' }),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      return await passkeys.optionsToMake({ id: by.person, name: by.name }, broughtBy(request).address)
    },
  )

  app.post(
    '/api/me/passkeys',
    {
      schema: {
        tags,
        summary: 'Keep a passkey that was made, to sign in by it from now on',
        body: PasskeyInput,
        response: answers({ schema: done, description: 'Kept' }, 400, 409, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const { current, name, made } = request.body
      const attempt = rates.tried(request)
      if (attempt.wait > 0) return sendWait(reply, attempt.wait)
      if (!(await signIn.isPassphraseOf(by.person, current)))
        return sendProblem(reply, wrongSecret((await signIn.policy()).limit(lockMinutes).value))
      attempt.right()
      if (!(await passkeys.keep(by.person, name, made, broughtBy(request).address)))
        return sendProblem(reply, passkeyRefused())
      await signIn.note(by.person, 'changed', 'passkey')
      return { done: true } as const
    },
  )

  app.delete(
    '/api/me/passkeys/:id',
    {
      schema: {
        tags,
        summary: 'Take a passkey of one’s own away',
        params: z.strictObject({ id: z.string().regex(/^[A-Za-z0-9_-]{1,1400}$/) }),
        response: answers({ schema: done, description: 'It signs in nobody any more' }, 404, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const { id } = request.params
      if (!(await credentials.endPasskeys(by.person, id)))
        return sendProblem(reply, notFound('id', 'a passkey of one’s own', id))
      await signIn.note(by.person, 'changed', 'passkey taken away')
      return { done: true } as const
    },
  )
}
