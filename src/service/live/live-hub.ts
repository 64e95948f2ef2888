import type { Journal, Reader } from '#journal/journal.ts'
import type { LiveChange } from '../api-types.ts'
import { changeOf } from './change-of.ts'

/** Follows the record and tells each listener every entry once, in the order of the chain. */
export interface LiveHub {
  /** Tells all entries after `afterSeq`, those already kept first. Gives the function that ends it. */
  follow(afterSeq: number, listener: LiveListener): () => void
  close(): void
}

export interface LiveListener {
  /** A promise holds the next back, so that a slow screen slows only itself. */
  readonly tell: (change: LiveChange) => void | Promise<void>
  readonly ended: () => void
}

const pageSize = 200

/**
 * Each follower reads the record from its own place: a commit only wakes it. So a follower that comes back after
 * a lost connection, or one that is slow, misses nothing, and other processes on the same database are heard
 * of by asking now and then.
 */
export function liveHub(journal: Journal, reader: Reader, askEveryMilliseconds: number): LiveHub {
  const followers = new Set<Follower>()
  const wakeAll = (): void => {
    for (const follower of followers) follower.wake()
  }
  const unsubscribe = journal.subscribe(wakeAll)
  const asking = setInterval(wakeAll, askEveryMilliseconds).unref()
  return {
    follow(afterSeq, listener) {
      const follower = new Follower(reader, afterSeq, listener)
      followers.add(follower)
      follower.wake()
      return () => {
        followers.delete(follower)
        follower.stop()
      }
    },
    close() {
      unsubscribe()
      clearInterval(asking)
      for (const follower of followers) {
        follower.stop()
        follower.listener.ended()
      }
      followers.clear()
    },
  }
}

class Follower {
  readonly listener: LiveListener
  readonly #reader: Reader
  #seq: number
  #state: 'idle' | 'reading' | 'readingAndWoken' | 'stopped' = 'idle'

  constructor(reader: Reader, afterSeq: number, listener: LiveListener) {
    this.#reader = reader
    this.#seq = afterSeq
    this.listener = listener
  }

  wake(): void {
    if (this.#state === 'reading') this.#state = 'readingAndWoken'
    if (this.#state !== 'idle') return
    this.#state = 'reading'
    void this.#readOn()
  }

  stop(): void {
    this.#state = 'stopped'
  }

  async #readOn(): Promise<void> {
    try {
      while (this.#state !== 'stopped') {
        const count = await this.#tellPage()
        if (count > 0) continue
        if (this.#state !== 'readingAndWoken') break
        this.#state = 'reading'
      }
      if (this.#state !== 'stopped') this.#state = 'idle'
    } catch {
      // The store is closing, or the screen is gone: it comes back with the last number that it saw.
      this.stop()
      this.listener.ended()
    }
  }

  async #tellPage(): Promise<number> {
    const entries = await this.#reader.entries({ afterSeq: this.#seq, limit: pageSize })
    for (const entry of entries) {
      if (this.#state === 'stopped') return 0
      await this.listener.tell(await changeOf(this.#reader, entry))
      this.#seq = entry.seq
    }
    return entries.length
  }
}
