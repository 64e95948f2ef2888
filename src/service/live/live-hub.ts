import type { Journal, Reader } from '#journal/journal.ts'
import { type Follower, follower, type LiveListener } from './follower.ts'
import { recordTail } from './record-tail.ts'

/** Follows the record and tells each listener every entry once, in the order of the chain. */
export interface LiveHub {
  /** The most listeners at once. */
  readonly most: number
  readonly isFull: () => boolean
  /** How many listen. */
  readonly open: () => number
  /**
   * Tells all entries after `afterSeq`, those already kept first. Gives the function that ends it.
   * Throws a RangeError when there are `most` listeners: ask `isFull` before.
   */
  readonly follow: (afterSeq: number, listener: LiveListener) => () => void
  readonly close: () => void
}

interface HubOptions {
  readonly journal: Pick<Journal, 'subscribe' | 'elsewhere'>
  readonly reader: Reader
  readonly askEveryMilliseconds: number
  readonly most: number
}

const asksToOneWhileHearing = 10

/**
 * One look at the end of the record serves all listeners. A commit of this process wakes it, and word of another one on
 * the same database. Where no word comes, the database is asked now and then while anybody listens; however many screens
 * are open, once.
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
  const forget = journal.elsewhere.hear((site) => {
    if (site === undefined || site === reader.site) look()
  })
  let asked = 0
  const ask = (): void => {
    asked += 1
    // A word may be lost all the same, so that it is never relied on alone.
    if (!journal.elsewhere.isHearing() || asked % asksToOneWhileHearing === 0) look()
  }
  const asking = setInterval(ask, askEveryMilliseconds).unref()
  return {
    most,
    isFull: () => followers.size >= most,
    open: () => followers.size,
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
      forget()
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
