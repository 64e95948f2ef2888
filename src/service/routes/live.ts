import { z } from 'zod'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { AddRoutes } from '../app-type.ts'
import { count } from '../schemas/known.ts'
import { sendProblem } from '../problem-reply.ts'
import { tooManyStreams } from '../problems.ts'
import { rawAnswer } from '../schemas/answers.ts'
import { broughtBy } from '../sign-in/cookies.ts'
import { rightOf, whyShut } from '../sign-in/gate.ts'

const heartbeatMilliseconds = 15_000
/** How often it is asked whether the session still stands, which may end by idleness or at another service. */
const askAgainMilliseconds = 5000
const printedMilliseconds = 1000
const retryMilliseconds = 1000
/** After how long a screen that found no place may ask again. */
const placeAgainSeconds = 30

const LastSeen = z.object({ 'last-event-id': count(0, Number.MAX_SAFE_INTEGER).optional().catch(undefined) })

/** Every kept entry, told to the open screens as it comes. */
export const addLiveRoutes: AddRoutes = (app, { live, reader, signIn, intake }) => {
  const isShut = async (request: FastifyRequest): Promise<boolean> =>
    whyShut(await signIn.who(broughtBy(request)), rightOf('GET', '/api/live')) !== undefined

  app.get(
    '/api/live',
    {
      schema: {
        tags: ['live'],
        summary: 'Server-sent events: one for each kept entry, and one as heartbeat',
        description:
          'The id of an event is the number of its entry. `Last-Event-ID`, or `after`, goes on after that entry, so that a ' +
          'reconnect misses nothing. It ends with the session that opened it. The event "here" comes first and gives the ' +
          'number of the last entry; "running" says that a machine has printed, and "still" comes every 15 seconds and says that nothing was missed. When as many ' +
          'streams are open as may be, the answer is 503 with Retry-After.',
        headers: LastSeen,
        querystring: z.strictObject({ after: count(0, Number.MAX_SAFE_INTEGER).optional() }),
        response: rawAnswer('A stream of events; data is a LiveChange', 'text/event-stream', 422, 503),
      },
    },
    async (request, reply) => {
      const head = (await reader.head())?.seq ?? 0
      const asked = request.headers['last-event-id'] ?? request.query.after ?? head
      // Nothing is awaited from here on: the place that is free now is taken, or given back when the stream closes.
      if (live.isFull()) {
        return sendProblem(reply.header('retry-after', placeAgainSeconds), tooManyStreams(live.most))
      }
      const { raw } = reply
      // Who has gone while the head was read would never give the place back.
      if (request.raw.socket.destroyed) return reply.hijack()
      openStream(reply)
      // A number beyond the head is of another record: begin at the head of this one.
      const after = Math.min(asked, head)
      raw.write(`retry: ${retryMilliseconds}\nevent: here\nid: ${after}\ndata: ${JSON.stringify({ seq: head })}\n\n`)
      const stop = live.follow(after, {
        tell: (change) => send(raw, `id: ${change.seq}\ndata: ${JSON.stringify(change)}\n\n`),
        ended: () => raw.end(),
      })
      const look = (): void => {
        // Who cannot be asked for is told nothing more either; the screen comes again.
        void isShut(request).then(
          (shut) => shut && raw.end(),
          () => raw.end(),
        )
      }
      const printed = tellsOfPrinting(raw)
      const mute = intake.onHeard(printed.tell)
      const heart = setInterval(() => beat(raw), heartbeatMilliseconds)
      const asking = setInterval(look, askAgainMilliseconds)
      const deaf = signIn.onEnded(look)
      // It may have ended while the head was read.
      look()
      raw.on('close', () => {
        clearInterval(heart)
        clearInterval(asking)
        deaf()
        mute()
        printed.end()
        stop()
      })
    },
  )
}

/** Takes the socket over from the framework, with the headers that it has set so far. */
function openStream(reply: FastifyReply): void {
  reply.hijack()
  for (const [name, value] of Object.entries(reply.getHeaders()))
    if (value !== undefined) reply.raw.setHeader(name, value)
  reply.raw.writeHead(200, {
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
    'x-accel-buffering': 'no',
  })
}

/** At most once a second for each machine, however fast it prints; a slow screen misses some and loses nothing. */
function tellsOfPrinting(raw: FastifyReply['raw']) {
  const soon = new Map<string, ReturnType<typeof setTimeout>>()
  return {
    tell: (machine: string): void => {
      if (soon.has(machine)) return
      const say = (): void => {
        soon.delete(machine)
        if (!raw.destroyed && !raw.writableNeedDrain)
          raw.write(`event: running\ndata: ${JSON.stringify({ machine })}\n\n`)
      }
      soon.set(machine, setTimeout(say, printedMilliseconds))
    },
    end: (): void => {
      for (const timer of soon.values()) clearTimeout(timer)
    },
  }
}

/** A screen that takes nothing for a whole beat gives its place back; it comes again with the last number that it saw. */
function beat(raw: FastifyReply['raw']): void {
  if (raw.writableNeedDrain) raw.destroy()
  else raw.write('event: still\ndata: {}\n\n')
}

async function send(raw: FastifyReply['raw'], text: string): Promise<void> {
  if (raw.destroyed || raw.write(text)) return
  await new Promise<void>((resolve) => {
    raw.once('drain', resolve)
    raw.once('close', resolve)
  })
}
