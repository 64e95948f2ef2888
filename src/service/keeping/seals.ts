import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Journal } from '#journal/journal.ts'
import type { Seal, SealCheck, SealKey } from '#journal/seal/seal.ts'
import type { Say } from '../operation/log.ts'
import { sealKey } from '#journal/seal/seal-key.ts'

export interface Seals {
  list(): Promise<readonly Seal[]>
  /** Undefined while the record has no entry. */
  make(): Promise<Seal | undefined>
  check(seal: Seal): Promise<SealCheck>
  /** What kept the last seal from being made; null when nothing did. */
  failure(): string | null
  /** The public key, to be kept elsewhere. */
  publicKey(): string
  close(): Promise<void>
}

interface SealsOptions {
  readonly journal: Journal
  readonly site: SiteId
  readonly keyFile: string
  readonly now: () => Instant
  readonly log: Say
  readonly lookEveryMilliseconds?: number
}

const shown = 30

/** Seals the record once a day, when there is something new in it. */
export function seals({ journal, site, keyFile, now, log, lookEveryMilliseconds = 60_000 }: SealsOptions): Seals {
  let key: SealKey | undefined
  let failed: string | null = null
  let making: Promise<Seal | undefined> | undefined
  let looking: Promise<void> | undefined

  const make = (): Promise<Seal | undefined> => {
    making ??= journal.seal(site, keyNow()).finally(() => (making = undefined))
    return making
  }
  // Read at first use, so that a unit whose folder cannot be written still opens.
  const keyNow = (): SealKey => (key ??= sealKey(keyFile))

  const isDue = async (): Promise<boolean> => {
    const [last] = await journal.seals(site, 1)
    const head = await journal.read(site).head()
    const fresh = last !== undefined && (last.sealedAt.slice(0, 10) === now().slice(0, 10) || last.seq === head?.seq)
    return head !== undefined && !fresh
  }

  const look = async (): Promise<void> => {
    if (!(await isDue())) return
    // Looked at once more, since another service may have made it meanwhile.
    const { done } = await journal.alone(`seal ${site}`, async () => ((await isDue()) ? await make() : undefined))
    if (done === 'here') failed = null
  }

  const quietly = (): void => {
    looking ??= look()
      .finally(() => (looking = undefined))
      .catch((error: unknown) => {
        const says = error instanceof Error ? error.message : String(error)
        if (failed !== says) log(`SEAL FAILED: ${says}`, 'error')
        failed = says
      })
  }
  const timer = setInterval(quietly, lookEveryMilliseconds)
  timer.unref()
  quietly()

  return {
    list: () => journal.seals(site, shown),
    async make() {
      const seal = await make()
      failed = null
      return seal
    },
    check: (seal) => journal.checkSeal(seal),
    failure: () => failed,
    publicKey: () => keyNow().publicKey,
    async close() {
      clearInterval(timer)
      await looking
      await making?.catch(() => undefined)
    },
  }
}
