import type { Reader } from '#journal/journal.ts'
import type { LiveChange } from '../api-types.ts'
import { changeOf } from './change-of.ts'
import type { RecordTail } from './record-tail.ts'

export interface LiveListener {
  /** A promise holds the next back, so that a slow screen slows only itself. */
  readonly tell: (change: LiveChange) => void | Promise<void>
  readonly ended: () => void
}

export interface Follower {
  readonly wake: () => void
  readonly stop: () => void
}

const pageSize = 200

/**
 * Tells one listener every entry after `afterSeq`. What the tail holds comes from there; only a listener that is behind
 * it, since it came back after a lost connection or is slow, reads the record from its own place.
 */
export function follower(parts: {
  readonly reader: Reader
  readonly tail: RecordTail
  readonly afterSeq: number
  readonly listener: LiveListener
}): Follower {
  const { reader, tail, listener } = parts
  let seq = parts.afterSeq
  let state: 'idle' | 'telling' | 'tellingAndWoken' | 'stopped' = 'idle'
  const stopped = () => state === 'stopped'

  const next = async (): Promise<readonly LiveChange[]> => {
    const held = tail.after(seq)
    if (held !== undefined) return held
    const entries = await reader.entries({ afterSeq: seq, limit: pageSize })
    return await Promise.all(entries.map((entry) => changeOf(reader, entry)))
  }

  const tellAll = async (changes: readonly LiveChange[]): Promise<void> => {
    for (const change of changes) {
      if (stopped()) return
      // In the order of the chain, and no faster than the listener takes them.
      // oxlint-disable-next-line no-await-in-loop
      await listener.tell(change)
      seq = change.seq
    }
  }

  const catchUp = async (): Promise<void> => {
    while (!stopped() && seq < (tail.position() ?? 0)) {
      // oxlint-disable-next-line no-await-in-loop
      const changes = await next()
      if (changes.length === 0) return
      // oxlint-disable-next-line no-await-in-loop
      await tellAll(changes)
    }
  }

  const run = async (): Promise<void> => {
    try {
      do {
        state = 'telling'
        // oxlint-disable-next-line no-await-in-loop
        await catchUp()
      } while (wasWoken())
      if (!stopped()) state = 'idle'
    } catch {
      // The store is closing, or the screen is gone: it comes back with the last number that it saw.
      state = 'stopped'
      listener.ended()
    }
  }
  const wasWoken = () => state === 'tellingAndWoken'

  return {
    wake() {
      if (state === 'telling') state = 'tellingAndWoken'
      if (state === 'idle') void run()
    },
    stop() {
      state = 'stopped'
    },
  }
}
