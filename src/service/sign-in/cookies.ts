import type { FastifyReply, FastifyRequest } from 'fastify'
import { isByTls } from '../security-headers.ts'
import type { Brought } from './sign-in.ts'

/*
 * The browser holds two secrets that no script can read: who is signed in, and which tablet this is. They go with requests
 * of our own pages only (SameSite), and over TLS only, where the service is reached by it.
 */

const deviceYears = 5

export function broughtBy(request: FastifyRequest): Brought {
  return {
    session: request.cookies[nameOf('session', request)],
    device: request.cookies[nameOf('device', request)],
    address: { host: request.hostname, origin: `${isByTls(request) ? 'https' : 'http'}://${request.host}` },
  }
}

/** Over TLS by a name that a browser takes from this very address alone, and from no other name of the same domain. */
function nameOf(what: 'session' | 'device', request: FastifyRequest): string {
  return `${isByTls(request) ? '__Host-' : ''}nilgrowth_${what}`
}

export function giveSession(request: FastifyRequest, reply: FastifyReply, token: string): void {
  reply.setCookie(nameOf('session', request), token, options(request))
}

export function takeSession(request: FastifyRequest, reply: FastifyReply): void {
  reply.clearCookie(nameOf('session', request), options(request))
}

export function giveDevice(request: FastifyRequest, reply: FastifyReply, token: string): void {
  reply.setCookie(nameOf('device', request), token, { ...options(request), maxAge: deviceYears * 365 * 86_400 })
}

function options(request: FastifyRequest) {
  return { path: '/', httpOnly: true, sameSite: 'strict', secure: isByTls(request) } as const
}
