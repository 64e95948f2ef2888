import { z } from 'zod'
import { lockMinutes } from '#road/people/limits.ts'
import type { AddRoutes } from '../app-type.ts'
import { sendProblem, sendWait } from '../problem-reply.ts'
import { notFound, notSignedIn, wrongSecret } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { SessionsSchema, SessionsToEnd } from '../schemas/sign-in.ts'
import { signedInOf } from '../sign-in/gate.ts'

/** Where whoever is signed in is signed in besides, and the way to end that. */
export const addOwnSessionRoutes: AddRoutes = (app, { signIn, rates }) => {
  const tags = ['sign-in']

  app.get(
    '/api/me/sessions',
    {
      schema: {
        tags,
        summary: 'One’s own sessions that go on',
        response: answers({ schema: SessionsSchema, description: 'The one begun last first' }),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const own = await signIn.sessionsOf(by.person)
      return own.map(({ token, ...shown }) => ({ ...shown, here: token === by.session.token }))
    },
  )

  app.post(
    '/api/me/sessions/end',
    {
      schema: {
        tags,
        summary: 'End one of one’s own sessions, or all but this one',
        body: SessionsToEnd,
        response: answers(
          { schema: z.object({ ended: z.number() }), description: 'How many ended' },
          400,
          404,
          413,
          415,
          422,
        ),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const { current, session } = request.body
      const attempt = rates.tried(request)
      if (attempt.wait > 0) return sendWait(reply, attempt.wait)
      if (!(await signIn.isPassphraseOf(by.person, current)))
        return sendProblem(reply, wrongSecret((await signIn.policy()).limit(lockMinutes).value))
      attempt.right()
      const ended = await signIn.endSessions(by.person, by.person, ({ id, token }) =>
        session === 'others' ? token !== by.session.token : id === session,
      )
      if (ended === 0 && session !== 'others')
        return sendProblem(reply, notFound('session', 'a session of one’s own that goes on', session))
      return { ended }
    },
  )
}
