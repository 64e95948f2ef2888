import type { App } from './app-type.ts'
import { sendProblem } from './problem-reply.ts'
import { foreignHost, foreignPage, unclearHost } from './problems.ts'
import { isThisComputer } from './this-computer.ts'

/*
 * Mantine writes its variables into style elements and attributes, hence 'unsafe-inline' for styles and for nothing else.
 * Charts are saved as pictures by way of data: and blob: addresses.
 */
const contentSecurityPolicy = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "worker-src 'self' blob:",
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

/**
 * Puts the headers on every answer before anything else is done, and turns away what the page of another site asks for:
 * the browser's own word on where a request comes from stands before the sign-in, which its cookies would carry along.
 */
export function addSecurityHeaders(app: App, listensOn: string): void {
  const onThisComputerOnly = isThisComputer(listensOn)
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(headers)
    if (request.url.startsWith('/api/')) reply.header('cache-control', 'no-store')
    const { origin } = request.headers
    const hosts = valuesOf('host', request.raw.rawHeaders)
    const [host] = hosts
    // With two, what stands before this service may have gone by the other one.
    if (host === undefined || hosts.length > 1 || nameOf(host) === undefined) {
      return sendProblem(reply, unclearHost(hosts))
    }
    // Whoever owns a name can make it lead to this computer; a page of that name would then count as our own.
    if (onThisComputerOnly && !isThisComputer(nameOf(host) ?? '')) return sendProblem(reply, foreignHost(host))
    if (origin !== undefined && !isOwn(origin, host)) return sendProblem(reply, foreignPage(origin))
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

function isOwn(origin: string, host: string): boolean {
  return URL.canParse(origin) && new URL(origin).host === host
}
