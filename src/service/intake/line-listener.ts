import { readFile } from 'node:fs/promises'
import { createServer, type Server, type Socket } from 'node:net'
import { setTimeout as sleep } from 'node:timers/promises'
import { instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import { oneAtATime } from '#journal/one-at-a-time.ts'
import type { LineSettings } from '../machine-answers.ts'
import type { Say } from '../operation/log.ts'
import type { Came } from './arrivals.ts'
import { endedIn, forgetEnded, lineSpool } from './line-spool.ts'
import { lineBuffer, type PrintedLine } from './printed-lines.ts'
import { type EndedBy, endedByQuiet, idle, type Splitting, withLine } from './split-cycles.ts'

/** What a machine prints just now. */
export interface Running {
  readonly text: string
  readonly lines: number
  readonly lastAt: number
}

export interface LineListener {
  readonly port: number
  readonly running: () => Running | undefined
  readonly says: () => string
  readonly close: () => Promise<void>
}

interface ListenerOptions {
  readonly machine: SubjectId<'machine'>
  readonly settings: LineSettings
  /** 0 takes any free port. */
  readonly port?: number
  readonly folder: string
  readonly take: (came: Came) => Promise<unknown>
  readonly mostBytes: number
  readonly now: () => number
  readonly log: Say
  /** Told after each packet. */
  readonly heard: () => void
}

/** No printer prints faster; what comes faster waits in the network, and nothing of it is lost. */
const linesPerSecond = 200
/** A connection that says nothing for so long is gone; who is still there connects again. */
const idleMilliseconds = 3_600_000
const lookEveryMilliseconds = 250

/**
 * Hears the printer of one machine. Each line is on the disk before the next packet is read. The last who connects is heard: the
 * connection before it may be one that a converter lost without a word.
 */
export async function listenToLine(options: ListenerOptions): Promise<LineListener> {
  const { settings, folder, now, log, machine } = options
  const spool = lineSpool(folder, now)
  const inTurn = oneAtATime()
  let state: Splitting = spool.text() === '' ? idle : { state: 'running', lastAt: now() }
  let note: string | null = spool.text() === '' ? null : 'The service was begun again while it was printed.'
  let socket: Socket | undefined
  let refused = 0
  let closed = false

  const takeOver = async (file: string, endedAt: number, why: string | null): Promise<void> => {
    const bytes = await readFile(file)
    const name = `printed until ${instant(Math.round(endedAt))}`
    await options.take({ machine, from: 'line', name, bytes, writtenAt: instant(Math.round(endedAt)), note: why })
    await forgetEnded(file)
  }

  const end = async (why: EndedBy): Promise<void> => {
    const endedAt = spool.lastAt() ?? now()
    const says = [note, whyEnded(why, settings)].filter((each) => each !== null).join(' ')
    note = null
    state = idle
    if (spool.text() === '') return
    const file = await spool.end()
    // What cannot be taken over now, as when the store is away, lies in its file and is taken over later.
    await takeOver(file, endedAt, says === '' ? null : says).catch((error: unknown) =>
      log(`machine line ${machine}: an ended cycle waits in ${file}: ${String(error)}`, 'error'),
    )
  }

  const hear = async (lines: readonly PrintedLine[]): Promise<void> => {
    const kept: string[] = []
    const flush = async (): Promise<void> => {
      if (kept.length > 0) await spool.write(kept.splice(0))
    }
    for (const { text, cut } of lines) {
      const split = withLine(state, text, now(), settings)
      if (split.endsBefore !== null) {
        // In the order in which it was printed.
        // oxlint-disable-next-line no-await-in-loop
        await flush()
        // oxlint-disable-next-line no-await-in-loop
        await end(split.endsBefore)
      }
      state = split.after
      if (cut) note = 'A line was longer than any printer prints and was cut.'
      if (split.keeps) kept.push(text)
    }
    await flush()
    if (spool.bytes() > options.mostBytes) await end('tooLong')
    options.heard()
  }

  const look = async (): Promise<void> => {
    const quiet = endedByQuiet(state, now(), settings)
    if (quiet === null) return
    await end(quiet)
    options.heard()
  }

  const serve = async (own: Socket): Promise<void> => {
    const buffer = lineBuffer()
    try {
      for await (const chunk of own) {
        const lines = buffer.take(chunk as Uint8Array)
        await inTurn(() => hear(lines))
        if (lines.length > 0) await sleep((lines.length / linesPerSecond) * 1000)
      }
    } catch {
      // Cut off: what was printed is kept, and the machine may go on in a new connection.
    }
    const rest = buffer.rest()
    if (rest !== undefined) await inTurn(() => hear([rest]))
    if (socket === own) socket = undefined
  }

  for (const { file, at } of endedIn(folder)) {
    // oxlint-disable-next-line no-await-in-loop
    await takeOver(file, at, 'The service was begun again after it was printed.')
  }
  const server = createServer((connection) => {
    if (settings.from !== null && plain(connection.remoteAddress) !== settings.from) {
      refused += 1
      connection.destroy()
      return
    }
    socket?.destroy()
    socket = connection
    connection.setTimeout(idleMilliseconds, () => connection.destroy())
    connection.on('error', () => {})
    // Nothing is said to a printer.
    serve(connection).catch((error: unknown) => log(`machine line ${machine}: ${String(error)}`, 'error'))
  })
  const port = await listening(server, settings.address, options.port ?? settings.port)
  const timer = setInterval(() => {
    if (!closed) inTurn(look).catch((error: unknown) => log(`machine line ${machine}: ${String(error)}`, 'error'))
  }, lookEveryMilliseconds)
  timer.unref()

  return {
    port,
    running: () => {
      const text = spool.text()
      return text === '' ? undefined : { text, lines: text.split('\n').length - 1, lastAt: spool.lastAt() ?? now() }
    },
    says: () => {
      const at = `Listens on ${settings.address}, port ${port}: `
      const away = refused === 0 ? '' : ` ${refused} connections from other addresses were refused.`
      return `${at}${socket === undefined ? 'nobody is connected.' : 'a printer is connected.'}${away}`
    },
    async close() {
      closed = true
      clearInterval(timer)
      socket?.destroy()
      await new Promise<void>((resolve) => {
        server.close(() => resolve())
      })
      await inTurn(() => spool.close())
    },
  }
}

function whyEnded(why: EndedBy, { silenceSeconds }: LineSettings): string | null {
  switch (why) {
    case 'endMark':
      return null
    case 'silence':
      return `Nothing was printed for ${silenceSeconds} seconds: the cycle was taken as over.`
    case 'nextStart':
      return 'The next cycle began before the end of this one was printed.'
    case 'tooLong':
      return 'More was printed than is kept of one cycle: it was cut here.'
  }
}

/** An address of IPv4 as it is written, where it came by IPv6. */
function plain(address: string | undefined): string | undefined {
  return address?.replace(/^::ffff:/i, '')
}

function listening(server: Server, host: string, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject)
    server.listen({ host, port }, () => {
      server.removeListener('error', reject)
      const address = server.address()
      resolve(typeof address === 'object' && address !== null ? address.port : port)
    })
  })
}
