import { once } from 'node:events'
import type { FastifyReply } from 'fastify'

/** A piece goes out when the one before it has gone: a long table is never in memory as a whole. */
export async function sendPieces(reply: FastifyReply, pieces: AsyncIterable<string>): Promise<FastifyReply> {
  // The first piece is made before anything is said, so that a failure of the record is still answered as one.
  const iterator = pieces[Symbol.asyncIterator]()
  let piece = await iterator.next()
  const { raw } = reply.hijack()
  for (const [name, value] of Object.entries(reply.getHeaders())) if (value !== undefined) raw.setHeader(name, value)
  raw.writeHead(200)
  try {
    while (piece.done !== true && !raw.destroyed) {
      // oxlint-disable-next-line no-await-in-loop -- one after another
      if (!raw.write(piece.value)) await Promise.race([once(raw, 'drain'), once(raw, 'close')])
      // oxlint-disable-next-line no-await-in-loop
      piece = await iterator.next()
    }
    raw.end()
  } catch {
    // Cut off, so that whoever reads sees that it is not whole.
    raw.destroy()
  }
  return reply
}
