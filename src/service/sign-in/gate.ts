import cookies from '@fastify/cookie'
import type { FastifyRequest } from 'fastify'
import { invariant } from '#units/invariant.ts'
import type { App } from '../app-type.ts'
import type { ApiProblem } from '../api-types.ts'
import type { ServiceContext } from '../context.ts'
import { sendProblem, sendWait } from '../problem-reply.ts'
import { isOperator } from '../operation/operator.ts'
import { mayNot, notOperator, notSignedIn } from '../problems.ts'
import { broughtBy } from './cookies.ts'
import { rolesOfRights, type Right, routeRights } from './route-rights.ts'
import type { SignedIn, Who } from './who.ts'

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks; set before any handler runs. */
    who: Who
  }
}

/** Lets a request through to its route when whoever asks has the right that the route names. */
export async function addGate(
  app: App,
  { signIn, rates, config }: Pick<ServiceContext, 'signIn' | 'rates' | 'config'>,
): Promise<void> {
  await app.register(cookies)
  app.decorateRequest('who')
  app.addHook('onRoute', ({ method, url }) => {
    // A route for HEAD is made by the framework beside that for GET.
    for (const each of [method].flat().filter((one) => one !== 'HEAD'))
      invariant(!isOurs(url) || rightOf(each, url) !== undefined, `${each} ${url} has a right: add it to routeRights`)
  })
  app.addHook('onRequest', async (request, reply) => {
    const url = request.routeOptions.url ?? ''
    if (!isOurs(url)) return
    request.who = await signIn.who(broughtBy(request))
    const wait = rates.asked(request.who, request.ip)
    if (wait > 0) return sendWait(reply, wait)
    const right = rightOf(request.method === 'HEAD' ? 'GET' : request.method, url)
    if (right === 'operate' && !isOperator(request, config)) return sendProblem(reply, notOperator())
    const problem = whyShut(request.who, right)
    if (problem === undefined) return
    // Who tries what is not theirs is seen by who reads the log of access.
    if (request.who.kind === 'person')
      await signIn.note(request.who.person, 'was not allowed', `${request.method} ${url}`)
    return sendProblem(reply, problem)
  })
}

/** Why a right does not let this one through; undefined when it does. */
export function whyShut(who: Who, right: Right | undefined): ApiProblem | undefined {
  if (right === undefined || right === 'open' || right === 'operate' || who.kind === 'anyone') return undefined
  if (who.kind === 'nobody') return notSignedIn()
  if (right === 'person' || rolesOfRights[right].some((role) => who.roles.includes(role))) return undefined
  return mayNot(rolesOfRights[right].join(' or '), who.roles.join(', '))
}

/** Who is signed in; for routes that the gate lets nobody else through to. Undefined where no sign-in is asked for. */
export function signedInOf(request: FastifyRequest): SignedIn | undefined {
  return request.who.kind === 'person' ? request.who : undefined
}

function isOurs(url: string): boolean {
  return url.startsWith('/api/') || url.startsWith('/fhir/') || url === '/openapi.json'
}

export function rightOf(method: string, url: string): Right | undefined {
  return routeRights[`${method} ${url}`]
}
