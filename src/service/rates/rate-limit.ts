/** So many a minute, and as many of them at once as half a minute brings. */
export interface RateLimit {
  /** Takes one of `key`; gives 0, or after how many seconds there is one again. */
  take(key: string): number
  /** Gives back one that did not count after all. */
  giveBack(key: string): void
}

interface Bucket {
  left: number
  at: number
}

/** As many keys as are remembered: who comes from more addresses than these is not held back by a limit of this kind. */
const mostKeys = 20_000

/**
 * A bucket for each key, which fills evenly. In the memory of this process, on a clock that nobody sets: what it forgets by a
 * restart is no more than one minute's worth.
 */
export function rateLimit(perMinute: number, milliseconds: () => number = () => performance.now()): RateLimit {
  const size = Math.max(1, Math.ceil(perMinute / 2))
  const perMillisecond = perMinute / 60_000
  const buckets = new Map<string, Bucket>()

  const filled = (key: string): Bucket => {
    const now = milliseconds()
    const before = buckets.get(key) ?? { left: size, at: now }
    // Taken out and put in again, so that the first of the map is the one longest unused.
    buckets.delete(key)
    const bucket = { left: Math.min(size, before.left + (now - before.at) * perMillisecond), at: now }
    buckets.set(key, bucket)
    if (buckets.size > mostKeys) {
      const [oldest] = buckets.keys()
      if (oldest !== undefined) buckets.delete(oldest)
    }
    return bucket
  }

  return {
    take(key) {
      const bucket = filled(key)
      if (bucket.left < 1) return Math.ceil((1 - bucket.left) / perMillisecond / 1000)
      bucket.left -= 1
      return 0
    },
    giveBack(key) {
      const bucket = filled(key)
      bucket.left = Math.min(size, bucket.left + 1)
    },
  }
}
