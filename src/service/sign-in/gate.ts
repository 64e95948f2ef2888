import cookies from '@fastify/cookie'
import type { FastifyRequest } from 'fastify'
import { invariant } from '#units/invariant.ts'
import type { App } from '../app-type.ts'
import { sendProblem } from '../problem-reply.ts'
import { mayNot, notSignedIn } from '../problems.ts'
import { broughtBy } from './cookies.ts'
import { rolesOfRights, type Right, routeRights } from './route-rights.ts'
import type { SignIn } from './sign-in.ts'
import type { SignedIn, Who } from './who.ts'

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks; set before any handler runs. */
    who: Who
  }
}

/** Lets a request through to its route when whoever asks has the right that the route names. */
export async function addGate(app: App, signIn: SignIn): Promise<void> {
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
    const right = rightOf(request.method === 'HEAD' ? 'GET' : request.method, url)
    if (right === undefined || right === 'open' || request.who.kind === 'anyone') return
    if (request.who.kind === 'nobody') return sendProblem(reply, notSignedIn())
    const { roles } = request.who
    if (right === 'person' || rolesOfRights[right].some((role) => roles.includes(role))) return
    return sendProblem(reply, mayNot(rolesOfRights[right].join(' or '), roles.join(', ')))
  })
}

/** Who is signed in; for routes that the gate lets nobody else through to. Undefined where no sign-in is asked for. */
export function signedInOf(request: FastifyRequest): SignedIn | undefined {
  return request.who.kind === 'person' ? request.who : undefined
}

function isOurs(url: string): boolean {
  return url.startsWith('/api/') || url === '/openapi.json'
}

function rightOf(method: string, url: string): Right | undefined {
  return routeRights[`${method} ${url}`]
}
