import type { Journal, Reader } from '#journal/journal.ts'
import { type Follower, follower, type LiveListener } from './follower.ts'
import { recordTail } from './record-tail.ts'

/** Follows the record and tells each listener every entry once, in the order of the chain. */
export interface LiveHub {
  /** The most listeners at once. */
  readonly most: number
  readonly isFull: () => boolean
  /**
   * Tells all entries after `afterSeq`, those already kept first. Gives the function that ends it.
   * Throws a RangeError when there are `most` listeners: ask `isFull` before.
   */
  readonly follow: (afterSeq: number, listener: LiveListener) => () => void
  readonly close: () => void
}

interface HubOptions {
  readonly journal: Pick<Journal, 'subscribe'>
  readonly reader: Reader
  readonly askEveryMilliseconds: number
  readonly most: number
}

/**
 * One look at the end of the record serves all listeners: a commit of this process wakes it, and other processes on
 * the same database are heard of by asking now and then, while anybody listens. However many screens are open, the
 * database is asked once.
 */
export function liveHub({ journal, reader, askEveryMilliseconds, most }: HubOptions): LiveHub {
  const followers = new Map<Follower, LiveListener>()
  const tail = recordTail(reader, () => {
    for (const each of followers.keys()) each.wake()
  })
  const look = (): void => {
    if (followers.size > 0) tail.readOn()
  }
  const unsubscribe = journal.subscribe((kept) => {
    if (kept.site === reader.site) look()
  })
  const asking = setInterval(look, askEveryMilliseconds).unref()
  return {
    most,
    isFull: () => followers.size >= most,
    follow(afterSeq, listener) {
      if (followers.size >= most) throw new RangeError(`Wanted at most ${most} listeners, and there are as many`)
      const own = follower({ reader, tail, afterSeq, listener })
      followers.set(own, listener)
      if (tail.position() === undefined) tail.readOn()
      else own.wake()
      return () => {
        own.stop()
        followers.delete(own)
        if (followers.size === 0) tail.forget()
      }
    },
    close() {
      unsubscribe()
      clearInterval(asking)
      for (const [each, listener] of followers) {
        each.stop()
        listener.ended()
      }
      followers.clear()
      tail.forget()
    },
  }
}
