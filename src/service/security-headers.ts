import type { FastifyRequest } from 'fastify'
import type { App } from './app-type.ts'
import type { ServiceConfig } from './config.ts'
import { sendProblem } from './problem-reply.ts'
import { foreignHost, foreignPage, unclearHost } from './problems.ts'
import { isThisComputer } from './this-computer.ts'

/**
 * The one style element that comes with the page's code and not from a file: the library that draws the logs of machines puts it into
 * each picture. Its digest is named, so that no other is taken; the browser complains on every chart when it no longer fits.
 */
const styleOfPlots = "'sha256-jSYQUrW7J0b3jPqhZP9C2Xh1PyJKHKXd4s0fpGGKrww='"

/** Charts are saved as pictures by way of blob: addresses. */
const contentSecurityPolicy = [
  "default-src 'self'",
  "script-src 'self'",
  `style-src 'self' ${styleOfPlots}`,
  "img-src 'self' blob:",
  "worker-src 'self'",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ')

const headers: Readonly<Record<string, string>> = {
  'content-security-policy': contentSecurityPolicy,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(self), microphone=(), geolocation=()',
}

const byTlsForAYear = 'max-age=31536000; includeSubDomains'

/**
 * Puts the headers on every answer before anything else is done, and turns away what the page of another site asks for:
 * the browser's own word on where a request comes from stands before the sign-in, which its cookies would carry along.
 */
export function addSecurityHeaders(app: App, { host: listensOn, trustedProxies }: ServiceConfig): void {
  // Behind a proxy it is the proxy's names that are asked for.
  const onThisComputerOnly = isThisComputer(listensOn) && trustedProxies.length === 0
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(headers)
    if (isByTls(request)) reply.header('strict-transport-security', byTlsForAYear)
    if (/^\/(?:api|fhir)\//.test(request.url)) reply.header('cache-control', 'no-store')
    const { origin } = request.headers
    const hosts = valuesOf('host', request.raw.rawHeaders)
    const [host] = hosts
    // With two, what stands before this service may have gone by the other one.
    if (host === undefined || hosts.length > 1 || nameOf(host) === undefined) {
      return sendProblem(reply, unclearHost(hosts))
    }
    // Whoever owns a name can make it lead to this computer; a page of that name would then count as our own.
    if (onThisComputerOnly && !isThisComputer(nameOf(host) ?? '')) return sendProblem(reply, foreignHost(host))
    if (origin !== undefined && !isOwn(origin, host, isByTls(request))) return sendProblem(reply, foreignPage(origin))
  })
}

/** Every value of a header as it came, where the parsed headers hold the first alone. Names and values take turns. */
function valuesOf(name: string, raw: readonly string[]): readonly string[] {
  return raw.filter((_, place) => place % 2 === 1 && raw[place - 1]?.toLowerCase() === name)
}

/** A host without its port, in the one spelling of it; undefined for what is no host and port alone. */
function nameOf(host: string): string | undefined {
  if (!/^[^\s/?#@\\]+$/.test(host) || !URL.canParse(`http://${host}`)) return undefined
  return new URL(`http://${host}`).hostname
}

/** A page that came in the clear is no page of a service by TLS: who stands between could have written it. */
function isOwn(origin: string, host: string, byTls: boolean): boolean {
  if (!URL.canParse(origin)) return false
  const from = new URL(origin)
  // No page of this service comes by another way, and a file has no host that the one asked for could be set beside.
  if (from.protocol !== 'http:' && from.protocol !== 'https:') return false
  return from.host === new URL(`${from.protocol}//${host}`).host && (!byTls || from.protocol === 'https:')
}

/** Whether the browser reached the service, or the proxy before it that is trusted, by TLS. */
export function isByTls(request: Pick<FastifyRequest, 'protocol'>): boolean {
  return request.protocol === 'https'
}
