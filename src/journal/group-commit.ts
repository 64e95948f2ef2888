import { setImmediate } from 'node:timers/promises'
import type { SiteId } from '#road/entry.ts'
import type { BatchResult } from './keep.ts'
import type { Outcome } from './outcome.ts'
import type { Prepared } from './prepare.ts'

interface Waiting {
  readonly prepared: Prepared
  readonly resolve: (outcome: Outcome) => void
  readonly reject: (error: unknown) => void
}

/** Entries in one commit at most: enough to spread the cost of a sync, few enough to stay short. */
const batchSize = 256

/**
 * Lets concurrent appends share a commit. One loop takes what has gathered, commits it, and only then answers.
 * `commit` keeps one batch of one site, durably.
 */
export class GroupCommit {
  readonly #commit: (site: SiteId, entries: readonly Prepared[]) => Promise<BatchResult>
  #queue: Waiting[] = []
  #loop: Promise<void> | undefined

  constructor(commit: (site: SiteId, entries: readonly Prepared[]) => Promise<BatchResult>) {
    this.#commit = commit
  }

  append(prepared: Prepared): Promise<Outcome> {
    const { promise, resolve, reject } = Promise.withResolvers<Outcome>()
    this.#queue.push({ prepared, resolve, reject })
    this.#loop ??= this.#run()
    return promise
  }

  /** Resolves when nothing is left to do. */
  async idle(): Promise<void> {
    await this.#loop
  }

  async #run(): Promise<void> {
    try {
      while (true) {
        // Lets the requests that have come in meanwhile queue up, so that they share the commit.
        await setImmediate()
        const batch = this.#queue.splice(0, batchSize)
        if (batch.length === 0) return
        const sites = Map.groupBy(batch, (waiting) => waiting.prepared.sent.site)
        for (const [site, waiting] of sites) await this.#settle(site, waiting)
      }
    } finally {
      this.#loop = undefined
    }
  }

  async #settle(site: SiteId, waiting: readonly Waiting[]): Promise<void> {
    try {
      const { outcomes } = await this.#commit(
        site,
        waiting.map(({ prepared }) => prepared),
      )
      for (const [index, { resolve, reject }] of waiting.entries()) {
        const outcome = outcomes[index]
        if (outcome === undefined) reject(new Error('Invariant failed: a batch must give an outcome for each entry'))
        else resolve(outcome)
      }
    } catch (error) {
      // The batch was rolled back as a whole. One at a time, what made it fail takes no other entry with it. Had the
      // commit come through in spite of the error, the id of each entry keeps it from being kept twice.
      if (waiting.length === 1) waiting[0]?.reject(error)
      else for (const single of waiting) await this.#settle(site, [single])
    }
  }
}
