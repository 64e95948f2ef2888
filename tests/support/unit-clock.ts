import type { Page } from 'playwright-core'
import { type Instant, instant } from '#road/instant.ts'

/** A clock that the service and its screens share, on which hours can pass at once. */
export class UnitClock {
  #ahead: number

  constructor(start: string) {
    this.#ahead = Date.parse(start) - Date.now()
  }

  readonly now = (): Instant => instant(this.milliseconds())

  milliseconds(): number {
    return Date.now() + this.#ahead
  }

  /** As when a screen is left alone for a while. */
  async passes(minutes: number, ...pages: readonly Page[]): Promise<void> {
    this.#ahead += minutes * 60_000
    await Promise.all(pages.map((page) => page.clock.fastForward(minutes * 60_000)))
  }
}
