import type { App } from './app-type.ts'
import { sendProblem } from './problem-reply.ts'
import { foreignPage } from './problems.ts'

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
 * the service has no sign-in yet, so the browser's own word on where a request comes from is all there is.
 */
export function addSecurityHeaders(app: App): void {
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(headers)
    if (request.url.startsWith('/api/')) reply.header('cache-control', 'no-store')
    const { origin, host } = request.headers
    if (origin !== undefined && !isOwn(origin, host)) return sendProblem(reply, foreignPage(origin))
  })
}

function isOwn(origin: string, host: string | undefined): boolean {
  return URL.canParse(origin) && new URL(origin).host === host
}
