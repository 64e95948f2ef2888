import { z } from 'zod'
import { lockMinutes, idleMinutes, passphraseAlone, passphraseLeast, pinLeast } from '#road/people/limits.ts'
import type { AddRoutes } from '../app-type.ts'
import type { MeAnswer } from '../api-types.ts'
import type { ServiceContext } from '../context.ts'
import { sendProblem, sendWait } from '../problem-reply.ts'
import { badgeTaken, passkeyWanted, unusableInput, wrongSecret } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { MeSchema, ProvingInput, SecretsInput, SignatureInput, SignedSchema } from '../schemas/sign-in.ts'
import { sessionEnd } from '../sign-in/session-times.ts'
import { broughtBy, giveSession, takeSession } from '../sign-in/cookies.ts'
import { signedInOf } from '../sign-in/gate.ts'
import { unfitSecrets } from '../sign-in/unfit-secrets.ts'
import { tabletOf, type Who } from '../sign-in/who.ts'

/** Signing in and out, signing an entry, and one's own secrets. */
export const addSignInRoutes: AddRoutes = (app, context) => {
  const { signIn, rates } = context
  const tags = ['sign-in']
  const wrong = async () => wrongSecret((await signIn.policy()).limit(lockMinutes).value)

  app.get(
    '/api/me',
    {
      schema: {
        tags,
        summary: 'Who is signed in at this browser, and whether this record asks for it',
        response: answers({ schema: MeSchema, description: 'The person, or null' }),
      },
    },
    async (request, reply) => reply.send((await meOf(context, request.who)) satisfies MeAnswer),
  )

  app.post(
    '/api/sign-in',
    {
      schema: {
        tags,
        summary: 'Sign in: by name and passphrase, by one-time code, or at an enrolled tablet by badge and PIN',
        description: 'The browser is given a cookie. Whoever was signed in there before is signed out.',
        body: ProvingInput,
        response: answers({ schema: SignedSchema, description: 'Who is signed in now' }, 400, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const proving = request.body
      const unfit = proving.by === 'code' ? unfitSecrets(await signIn.policy(), { passphrase: proving.passphrase }) : []
      if (unfit.length > 0) return sendProblem(reply, unusableInput(unfit))
      // Said before anything is looked at, so that it tells nothing of the passphrase.
      if (proving.by === 'passphrase' && tabletOf(request.who) === undefined) {
        if (!(await signIn.policy()).limit(passphraseAlone).value) return sendProblem(reply, passkeyWanted())
      }
      const attempt = rates.tried(request)
      if (attempt.wait > 0) return sendWait(reply, attempt.wait)
      const begun = await signIn.begin(proving, broughtBy(request))
      if (begun === null) return sendProblem(reply, await wrong())
      attempt.right()
      giveSession(request, reply, begun.token)
      return { person: begun.person }
    },
  )

  app.post(
    '/api/sign-out',
    {
      schema: {
        tags,
        summary: 'Sign out at this browser',
        response: answers({ schema: z.object({ signedOut: z.literal(true) }), description: 'Nobody is signed in' }),
      },
    },
    async (request, reply) => {
      await signIn.end(broughtBy(request))
      takeSession(request, reply)
      return { signedOut: true } as const
    },
  )

  app.post(
    '/api/me/active',
    {
      schema: {
        tags,
        summary: 'Say that the person is doing something, so that the session does not end by idleness',
        response: answers({ schema: z.object({ active: z.literal(true) }), description: 'Noted' }),
      },
    },
    async (request, reply) => {
      const signedIn = signedInOf(request)
      if (signedIn !== undefined) await signIn.active(signedIn)
      return reply.send({ active: true })
    },
  )

  app.post(
    '/api/signatures',
    {
      schema: {
        tags,
        summary: 'Sign an entry that is about to be sent, as its author or as the second person',
        description:
          'By passphrase anywhere, by PIN or badge and PIN at an enrolled tablet. It waits for the entry of that id.',
        body: SignatureInput,
        response: answers({ schema: SignedSchema, description: 'Who signed' }, 400, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const { entry, as, proving } = request.body
      const attempt = rates.tried(request)
      if (attempt.wait > 0) return sendWait(reply, attempt.wait)
      const person = await signIn.sign(proving, broughtBy(request), entry, as)
      if (person === null) return sendProblem(reply, await wrong())
      attempt.right()
      return { person }
    },
  )

  app.post(
    '/api/me/secrets',
    {
      schema: {
        tags,
        summary: 'Choose a passphrase, a PIN or a badge of one’s own',
        body: SecretsInput,
        response: answers({ schema: z.object({ set: z.literal(true) }), description: 'Set' }, 400, 409, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const { current, passphrase, pin, badge } = request.body
      const attempt = rates.tried(request)
      if (attempt.wait > 0) return sendWait(reply, attempt.wait)
      const signedIn = signedInOf(request)
      if (signedIn === undefined || !(await signIn.isPassphraseOf(signedIn.person, current)))
        return sendProblem(reply, await wrong())
      attempt.right()
      const secrets = { ...(passphrase && { passphrase }), ...(pin && { pin }), ...(badge && { badge }) }
      const unfit = unfitSecrets(await signIn.policy(), secrets)
      if (unfit.length > 0) return sendProblem(reply, unusableInput(unfit))
      const set = await signIn.setSecrets(signedIn.person, secrets)
      if (set === 'badgeTaken') return sendProblem(reply, badgeTaken())
      // Whoever knew the old one may be signed in elsewhere by it.
      giveSession(request, reply, await signIn.signInAnew(signedIn))
      return { set: true } as const
    },
  )
}

async function meOf({ signIn, credentials }: ServiceContext, who: Who): Promise<MeAnswer> {
  const policy = await signIn.policy()
  const account = who.kind === 'person' ? await credentials.account(who.person) : undefined
  const device = tabletOf(who)
  return {
    signIn: who.kind === 'anyone' ? 'notAsked' : 'required',
    person: who.kind === 'person' ? { id: who.person, name: who.name, roles: who.roles } : null,
    hasPin: account !== undefined && account.pin !== null,
    device: device === undefined ? null : { id: device.id, name: device.name },
    idleMinutes: policy.limit(idleMinutes).value,
    sessionEndsAt: who.kind === 'person' ? sessionEnd(who.session, policy) : null,
    passphraseLeast: policy.limit(passphraseLeast).value,
    pinLeast: policy.limit(pinLeast).value,
    passphraseAlone: policy.limit(passphraseAlone).value,
  }
}
