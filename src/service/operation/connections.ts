import type { RequestListener, Server } from 'node:http'
import { type Certificate, serverFor } from '../http-server.ts'

/** All that listens; a name such as `localhost` may stand for two addresses. */
export interface Connections {
  readonly listenerFor: (certificate: Certificate | null, handler: RequestListener) => Server
  /** Lets what is being answered come to its end, cuts it when that takes too long, and runs `close` meanwhile. */
  readonly drain: (close: () => Promise<void>) => Promise<void>
}

const mostMilliseconds = 10_000

export function connections(): Connections {
  const servers: Server[] = []
  return {
    listenerFor(certificate, handler) {
      const server = serverFor(certificate, handler)
      servers.push(server)
      return server
    },
    async drain(close) {
      // A connection that has been answered would wait for another question for as long as a browser keeps it.
      const idle = setInterval(() => servers.forEach((server) => server.closeIdleConnections()), 50)
      const late = setTimeout(() => servers.forEach((server) => server.closeAllConnections()), mostMilliseconds)
      try {
        await close()
      } finally {
        clearInterval(idle)
        clearTimeout(late)
      }
    },
  }
}
