// Takes the pictures in docs/screens: the main screens of the demonstration unit, at three widths, in both themes.
// Usage: node tests/support/screenshots.ts (after npm run build)
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Browser, BrowserContext } from 'playwright-core'
import type { KnownPage, UnitState } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { demonstration } from '#service/unit/demonstration.ts'
import { type SubjectKind, subjectKey } from '#road/subject.ts'
import { openBrowser } from './browser.ts'
import { type RunningService, runService } from './running-service.ts'

const folder = join(import.meta.dirname, '../../docs/screens')
const sizes = [
  { width: 390, height: 844 },
  { width: 820, height: 1180 },
  { width: 1440, height: 1000 },
] as const
const themes = ['light', 'dark'] as const

interface Picture {
  readonly name: string
  readonly path: string
}

/** One step after the other: a picture is of one page at a time. */
/* oxlint-disable no-await-in-loop */

async function takeAll(): Promise<void> {
  await using service = await runService({ demo: demonstration, screens: builtScreens })
  const browser = await openBrowser()
  try {
    mkdirSync(folder, { recursive: true })
    await take(browser, service.url, [{ name: 'first-start', path: '/' }])
    await makeDemonstration(service)
    const person = `person:${await keyOf(service, 'person', 'active')}`
    await take(browser, service.url, await pictures(service), person)
  } finally {
    await browser.close()
  }
}

async function makeDemonstration(service: RunningService): Promise<void> {
  await service.ask('POST', '/api/unit', { choice: 'demonstration' })
  for (;;) {
    const { body } = await service.ask('GET', '/api/unit')
    if ((body as UnitState).state === 'open') return
    await new Promise((resolve) => setTimeout(resolve, 1000))
  }
}

/** The subjects that the demonstration's two stories are about, and one of each other kind. */
async function pictures(service: RunningService): Promise<Picture[]> {
  const key = (kind: SubjectKind, standing: string) => keyOf(service, kind, standing)
  return [
    { name: 'round', path: '/' },
    { name: 'one-round', path: `/rounds/${await key('round', 'onShelf')}` },
    { name: 'wash-room', path: '/wash-room' },
    { name: 'machines', path: '/machines' },
    { name: 'load', path: `/loads/${await key('load', 'released')}` },
    { name: 'shelf', path: '/shelf' },
    { name: 'case', path: `/theatre/${await key('case', 'running')}` },
    { name: 'trace', path: `/trace?subject=wound:${await key('wound', 'noted')}` },
    { name: 'recall', path: `/recalls/${await key('recall', 'open')}` },
  ]
}

/** The key of the newest subject of a kind that stands somewhere. */
async function keyOf(service: RunningService, kind: SubjectKind, standing: string): Promise<string> {
  const { body } = await service.ask('GET', `/api/known?kind=${kind}&standing=${standing}&limit=1`)
  const [row] = (body as KnownPage).rows
  if (row === undefined) throw new RangeError(`Cannot take a picture of a ${kind}: none is ${standing}`)
  return subjectKey(row.subject)
}

async function take(browser: Browser, url: string, wanted: readonly Picture[], person?: string): Promise<void> {
  for (const theme of themes) {
    for (const size of sizes) {
      const context = await browser.newContext({ baseURL: url, viewport: size, colorScheme: theme })
      await context.addInitScript(
        (person) => localStorage.setItem('nilgrowth.who', JSON.stringify(person)),
        person ?? null,
      )
      await takeIn(context, wanted, `${size.width}-${theme}`)
      await context.close()
    }
  }
}

async function takeIn(context: BrowserContext, wanted: readonly Picture[], suffix: string): Promise<void> {
  const page = await context.newPage()
  for (const { name, path } of wanted) {
    await page.goto(path)
    await page.getByRole('heading', { level: 1 }).waitFor()
    // Charts and lists follow the heading within a moment; there is no one thing to wait for on all pages.
    await page.waitForTimeout(1200)
    await page.screenshot({ path: join(folder, `${name}-${suffix}.png`) })
  }
}

await takeAll()
