import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Brought } from './sign-in.ts'

/*
 * The browser holds two secrets that no script can read: who is signed in, and which tablet this is. They go with requests
 * of our own pages only (SameSite), and over TLS only, where the service is reached by it.
 */

const names = { session: 'nilgrowth_session', device: 'nilgrowth_device' } as const
const deviceYears = 5

export function broughtBy(request: FastifyRequest): Brought {
  return { session: request.cookies[names.session], device: request.cookies[names.device] }
}

export function giveSession(request: FastifyRequest, reply: FastifyReply, token: string): void {
  reply.setCookie(names.session, token, options(request))
}

export function takeSession(request: FastifyRequest, reply: FastifyReply): void {
  reply.clearCookie(names.session, options(request))
}

export function giveDevice(request: FastifyRequest, reply: FastifyReply, token: string): void {
  reply.setCookie(names.device, token, { ...options(request), maxAge: deviceYears * 365 * 86_400 })
}

function options(request: FastifyRequest) {
  return { path: '/', httpOnly: true, sameSite: 'strict', secure: request.protocol === 'https' } as const
}
