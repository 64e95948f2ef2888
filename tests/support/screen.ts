import assert from 'node:assert/strict'
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core'

/** A 10-inch tablet held upright, at which the unit works. */
export const tablet = { width: 820, height: 1180 }
/** The narrowest phone that is served. */
export const phone = { width: 390, height: 844 }

/** Long enough for two busy cores, short enough that a hang is seen. */
const patienceMilliseconds = 30_000

export interface Screen extends AsyncDisposable {
  readonly context: BrowserContext
  readonly page: Page
  /** What the browser complained of: errors in its console, pages that broke, requests that failed. */
  readonly troubles: readonly string[]
}

interface ScreenOptions {
  readonly size?: { readonly width: number; readonly height: number }
  readonly theme?: 'light' | 'dark'
  /** What the clock of this screen shows at the start, when it is not the real one. */
  readonly at?: number
  /** Lets the program install itself, so that it opens without network. Else each test loads what it looks at. */
  readonly installed?: boolean
  /** Another page of the same browser profile: what it keeps is shared. */
  readonly beside?: Screen
}

/** Opens the program in a browser window of its own, or beside another. */
export async function openScreen(browser: Browser, url: string, options: ScreenOptions = {}): Promise<Screen> {
  const { size = tablet, theme = 'light', at, beside, installed = false } = options
  const context =
    beside?.context ??
    (await browser.newContext({
      baseURL: url,
      viewport: size,
      colorScheme: theme,
      timezoneId: 'UTC',
      serviceWorkers: installed ? 'allow' : 'block',
    }))
  context.setDefaultTimeout(patienceMilliseconds)
  if (at !== undefined) await context.clock.install({ time: at })
  const page = await context.newPage()
  const troubles: string[] = []
  watch(page, troubles)
  await page.goto('/')
  return {
    context,
    page,
    troubles,
    [Symbol.asyncDispose]: () => (beside === undefined ? context.close() : page.close()),
  }
}

/** Waits until the program is kept in this browser. */
export async function isInstalled(page: Page): Promise<void> {
  await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)')
}

function watch(page: Page, troubles: string[]): void {
  page.on('console', (message) => {
    if (message.type() === 'error') troubles.push(`console: ${message.text()} (${message.location().url})`)
  })
  page.on('pageerror', (error) => troubles.push(`page: ${error.message}`))
  page.on('requestfailed', (request) => {
    // Going to another page ends the stream of changes, and whatever had not been answered yet.
    if (request.failure()?.errorText === 'net::ERR_ABORTED') return
    troubles.push(`failed: ${request.method()} ${request.url()} ${request.failure()?.errorText ?? ''}`)
  })
  page.on('response', (response) => {
    if (response.status() >= 400)
      troubles.push(`${response.status()}: ${response.request().method()} ${response.url()}`)
  })
}

export function noTroubles(screen: Screen): void {
  assert.deepEqual(screen.troubles, [])
}

/** Chooses who is working at this screen. */
export async function workAs(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Who is working?' }).click()
  const dialog = page.getByRole('dialog', { name: 'Who is working?' })
  await dialog.getByRole('button', { name }).click()
  await page.getByRole('button', { name: `Working: ${name}. Change` }).waitFor()
}

/** Goes to a room by the plan of the unit. */
export async function goTo(page: Page, room: string): Promise<void> {
  const plan = page.getByRole('navigation', { name: 'Plan of the unit' })
  await plan.getByRole('link', { name: new RegExp(`^${room}`) }).click()
  await page.getByRole('heading', { level: 1, name: room, exact: true }).waitFor()
}

/** The one thing to do next, as the page says it. */
export function nextThing(page: Page): Locator {
  return page.getByRole('region', { name: 'Do next' })
}

/** Waits until something asked of the service holds. */
export async function until<Value>(
  what: string,
  ask: () => Promise<Value>,
  holds: (value: Value) => boolean,
): Promise<Value> {
  const end = Date.now() + patienceMilliseconds
  for (;;) {
    // Asked until it holds.
    // oxlint-disable-next-line no-await-in-loop
    const value = await ask()
    if (holds(value)) return value
    assert.ok(Date.now() < end, `${what} did not come about: ${JSON.stringify(value)}`)
    // oxlint-disable-next-line no-await-in-loop
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
}
