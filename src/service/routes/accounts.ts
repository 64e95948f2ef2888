import { z } from 'zod'
import { type SubjectId, subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import type { AccountRow } from '../api-types.ts'
import type { ServiceContext } from '../context.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, notSignedIn, onlyManager } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { AccessSchema, AccountsSchema, CodeSchema, DeviceInput, DeviceSchema } from '../schemas/sign-in.ts'
import { giveDevice, giveSession } from '../sign-in/cookies.ts'
import { signedInOf } from '../sign-in/gate.ts'

const done = z.object({ done: z.literal(true) })
const Page = z.strictObject({
  before: z.uuid().optional(),
  limit: z.coerce.number().int().min(1).max(500).default(100),
})

/** What a manager does about who may sign in, and the log of it. */
export const addAccountRoutes: AddRoutes = (app, context) => {
  const { signIn, credentials, reader } = context
  const tags = ['accounts']
  const address = z.strictObject({ person: subjectOf('person') })

  app.get(
    '/api/accounts',
    {
      schema: {
        tags,
        summary: 'Everyone who works here, and what each may sign in with',
        response: answers({ schema: AccountsSchema, description: 'One for each person' }),
      },
    },
    async () => await accountsOf(context),
  )

  app.post(
    '/api/accounts/:person/code',
    {
      schema: {
        tags,
        summary: 'Give a person a one-time code, to choose a passphrase with',
        description: 'Ends what the person signed in with before. The code is shown this once.',
        params: address,
        response: answers({ schema: CodeSchema, description: 'The code, and until when it is good' }, 404, 409, 422),
      },
    },
    async (request, reply) => {
      const { person } = request.params
      const known = (await reader.known([person])).get(person)
      if (known === undefined || known.left)
        return sendProblem(reply, notFound('person', 'somebody who works here', person))
      if (await isOnlyManager(context, person)) return sendProblem(reply, onlyManager(person))
      return await signIn.giveCode(person, signedInOf(request)?.person ?? null)
    },
  )

  app.post(
    '/api/accounts/:person/close',
    {
      schema: {
        tags,
        summary: 'Sign a person out everywhere and take away what they sign in with',
        params: address,
        response: answers({ schema: done, description: 'Closed' }, 409, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const { person } = request.params
      if (await isOnlyManager(context, person)) return sendProblem(reply, onlyManager(person))
      await signIn.close(person, by.person)
      return { done: true } as const
    },
  )

  app.get(
    '/api/devices',
    {
      schema: {
        tags,
        summary: 'The enrolled tablets, those that were ended included',
        response: answers({ schema: z.array(DeviceSchema), description: 'In the order of enrolment' }),
      },
    },
    async () => (await credentials.devices()).map(({ token: _token, ...device }) => device),
  )

  app.post(
    '/api/devices',
    {
      schema: {
        tags,
        summary: 'Enrol this browser as a tablet of the unit, where badge and PIN are enough',
        body: DeviceInput,
        response: answers({ schema: DeviceSchema, description: 'The tablet' }, 400, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      const { token, session, device } = await signIn.enrol(request.body.name, by)
      giveDevice(request, reply, token)
      giveSession(request, reply, session)
      const { token: _digest, ...shown } = device
      return shown
    },
  )

  app.post(
    '/api/devices/:id/end',
    {
      schema: {
        tags,
        summary: 'End a tablet: it is lost, or no longer ours',
        params: z.strictObject({ id: z.uuid() }),
        response: answers({ schema: done, description: 'Ended, and everyone signed out there' }, 422),
      },
    },
    async (request, reply) => {
      const by = signedInOf(request)
      if (by === undefined) return sendProblem(reply, notSignedIn())
      await signIn.endDevice(request.params.id, by.person)
      return { done: true } as const
    },
  )

  app.get(
    '/api/access',
    {
      schema: {
        tags,
        summary: 'The log of who signed in, was turned away, or changed who may; the newest first',
        querystring: Page,
        response: answers({ schema: AccessSchema, description: 'A page of lines' }, 422),
      },
    },
    async (request, reply) => {
      const { before, limit } = request.query
      const lines = await credentials.accesses(before === undefined ? { limit } : { before, limit })
      return reply.send({ lines, next: lines.length === limit ? (lines.at(-1)?.id ?? null) : null })
    },
  )
}

/** Whether this is a manager who can sign in, and no other manager can. */
async function isOnlyManager({ reader, credentials }: ServiceContext, person: SubjectId<'person'>): Promise<boolean> {
  const [people, accounts] = await Promise.all([reader.standing('person', ['active']), credentials.accounts()])
  const able = new Set(accounts.filter(({ passphrase }) => passphrase !== null).map((account) => account.person))
  const managers = people.filter(({ id, roles }) => roles.includes('manager') && able.has(id)).map(({ id }) => id)
  return managers.length === 1 && managers[0] === person
}

async function accountsOf({ reader, credentials }: ServiceContext): Promise<readonly AccountRow[]> {
  const [people, accounts] = await Promise.all([reader.standing('person', ['active']), credentials.accounts()])
  const byPerson = new Map(accounts.map((account) => [account.person, account]))
  return people.map(({ id, name, roles }) => {
    const account = byPerson.get(id)
    return {
      person: id,
      name,
      roles,
      passphrase: account !== undefined && account.passphrase !== null,
      pin: account !== undefined && account.pin !== null,
      badge: account !== undefined && account.badge !== null,
      codeUntil: account?.code?.until ?? null,
      lockedUntil: account?.lockedUntil ?? null,
    }
  })
}
