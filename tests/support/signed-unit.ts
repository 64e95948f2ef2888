import assert from 'node:assert/strict'
import { v7 } from 'uuid'
import type { EntryId, SentEntry } from '#road/entry.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import type { Role } from '#road/people/entries.ts'
import { CookieBrowser, type Said } from './browser-cookies.ts'
import { type RunningService, runService } from './running-service.ts'
import type { ServiceEngine } from './service-engines.ts'

/** Long enough for the policy of a new unit. */
export const passphraseOf = (name: string): string => `nine blue gowns of ${name}`
export const pinOf = '806142'

const begun = Date.UTC(2026, 10, 30, 6)

/** A unit of our own with sign-in, whose clock the test moves. */
export class SignedUnit implements AsyncDisposable {
  readonly service: RunningService
  readonly manager: CookieBrowser
  /** The browsers of all who were given one. */
  readonly everybody: CookieBrowser[] = []
  readonly #clock: { now: number }

  private constructor(service: RunningService, clock: { now: number }) {
    this.service = service
    this.#clock = clock
    this.manager = this.browser()
  }

  static async open(
    engine: ServiceEngine,
    environment: Readonly<Record<string, string>> = {},
    screens: string | null = null,
  ): Promise<SignedUnit> {
    const clock = { now: begun }
    const service = await runService({
      environment: { ...(await engine.newRecord()), NILGROWTH_SIGN_IN: 'required', ...environment },
      now: () => instant(clock.now),
      screens,
    })
    const unit = new SignedUnit(service, clock)
    const code = unit.printedCode()
    const choice = { choice: 'empty', name: 'Invented', timeZone: 'UTC', manager: 'Mira', code }
    const opened = await unit.manager.ask('POST', '/api/unit', { ...choice, passphrase: passphraseOf('Mira') })
    assert.equal(opened.status, 202, JSON.stringify(opened.body))
    assert.equal((await unit.signIn(unit.manager, 'Mira')).status, 200)
    return unit
  }

  /** What the console showed. */
  printedCode(): string {
    const line = this.service.log.find((each) => each.includes('one-time code'))
    return line?.split(' ').at(-1) ?? assert.fail('the console printed no code')
  }

  browser(): CookieBrowser {
    return new CookieBrowser(this.service.url)
  }

  now(): Instant {
    return instant(this.#clock.now)
  }

  pass(minutes: number): void {
    this.#clock.now += minutes * 60_000
  }

  signIn(browser: CookieBrowser, name: string, passphrase = passphraseOf(name)): Promise<Said> {
    return browser.ask('POST', '/api/sign-in', { by: 'passphrase', name, passphrase })
  }

  entry(by: string, kind: string, body: object, more: Partial<SentEntry> = {}): SentEntry {
    return {
      id: v7({ msecs: millis(this.now()) }) as EntryId,
      site: 'unit' as SentEntry['site'],
      kind,
      happenedAt: this.now(),
      by: `person:${by}`,
      workstation: 'Tablet 1',
      body: body as SentEntry['body'],
      ...more,
    }
  }

  /** Sends a decision that its author, and a second person, have signed. */
  async decide(entry: SentEntry, author: string, second: string): Promise<Said> {
    for (const [as, name] of [
      ['author', author],
      ['second', second],
    ] as const) {
      const proving = { by: 'passphrase', name, passphrase: passphraseOf(name) }
      const signed = await this.manager.ask('POST', '/api/signatures', { entry: entry.id, as, proving })
      assert.equal(signed.status, 200, JSON.stringify(signed.body))
    }
    return await this.manager.ask('POST', '/api/entries', entry)
  }

  /** Registers a person and has them sign in at a browser of their own, by the one-time code. */
  async person(name: string, roles: readonly Role[]): Promise<CookieBrowser> {
    const person = `person:${name.toLowerCase()}`
    const registered = await this.manager.ask(
      'POST',
      '/api/entries',
      this.entry('mira', 'person-registered', { person, name, roles }),
    )
    assert.equal(registered.status, 201, JSON.stringify(registered.body))
    const given = await this.manager.ask('POST', `/api/accounts/${person}/code`)
    const { code } = given.body as { readonly code: string }
    const browser = this.browser()
    const began = await browser.ask('POST', '/api/sign-in', { by: 'code', code, passphrase: passphraseOf(name) })
    assert.equal(began.status, 200, JSON.stringify(began.body))
    this.everybody.push(browser)
    return browser
  }

  async [Symbol.asyncDispose](): Promise<void> {
    await this.service[Symbol.asyncDispose]()
  }
}
