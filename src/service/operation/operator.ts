import { timingSafeEqual } from 'node:crypto'
import type { FastifyRequest } from 'fastify'
import type { ServiceConfig } from '../config.ts'
import { digestOf } from '../sign-in/secrets.ts'
import { isThisComputer } from '../this-computer.ts'

/** Whether this is who looks after the computer: a program on it, or one that knows the token of the settings. */
export function isOperator(
  request: Pick<FastifyRequest, 'headers' | 'raw'>,
  { metricsToken, trustedProxies }: Pick<ServiceConfig, 'metricsToken' | 'trustedProxies'>,
): boolean {
  const { authorization, forwarded, 'x-forwarded-for': forwardedFor } = request.headers
  if (authorization !== undefined) {
    const given = /^Bearer (\S+)$/i.exec(authorization)?.[1]
    return given !== undefined && metricsToken !== null && isSame(given, metricsToken)
  }
  // Through a proxy on this computer everybody comes from it.
  const direct = trustedProxies.length === 0 && forwarded === undefined && forwardedFor === undefined
  return direct && isThisComputer((request.raw.socket.remoteAddress ?? '').replace(/^::ffff:/, ''))
}

function isSame(given: string, wanted: string): boolean {
  return timingSafeEqual(Buffer.from(digestOf('token', given)), Buffer.from(digestOf('token', wanted)))
}
