import assert from 'node:assert/strict'
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before } from 'node:test'
import type { Browser } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { demonstration } from '#service/unit/demonstration.ts'
import { openBrowser } from './browser.ts'
import { type RunningService, runService } from './running-service.ts'
import { noTroubles, openScreen } from './screen.ts'

/** A written demonstration unit, from which each test takes a copy of its own: writing it takes a minute of one core. */
interface DemonstrationStore extends Disposable {
  /** What the bar of the first start showed while it was written. */
  readonly progress: readonly number[]
  /** A service on a copy of the store. */
  readonly open: () => Promise<RunningService>
}

const mostMilliseconds = 600_000

/** Where the files of one run of the tests keep what they share; set by tools/run-tests.mjs. */
const shared = process.env['NILGROWTH_TESTS_SHARED']

/** What the tests of a file have from before the first of them to after the last. */
interface Demonstration extends Pick<DemonstrationStore, 'open'> {
  readonly browser: Browser
  readonly progress: DemonstrationStore['progress']
}

/** Opens a browser and the demonstration before the tests of a file, and ends both after them. */
export function withDemonstration(): Demonstration {
  let browser: Browser | undefined
  let store: DemonstrationStore | undefined
  before(async () => {
    browser = await openBrowser()
    store = await setUpDemonstration(browser)
  })
  after(async () => {
    // First, since a browser that is left open keeps the process, and there is no store when it could not be written.
    await browser?.close()
    store?.[Symbol.dispose]()
  })
  return {
    get browser() {
      return browser ?? assert.fail('the browser is asked for within a test')
    },
    get progress() {
      return store?.progress ?? assert.fail('the demonstration is asked for within a test')
    },
    open: () => store?.open() ?? assert.fail('the demonstration is asked for within a test'),
  }
}

/** The demonstration as its own first start writes it; of the files of one run one writes it, and the others wait for it. */
async function setUpDemonstration(browser: Browser): Promise<DemonstrationStore> {
  const own = shared === undefined ? mkdtempSync(join(tmpdir(), 'nilgrowth-demonstration-')) : null
  const folder = own ?? join(shared ?? '', 'demonstration')
  const progress = own === null ? await writtenOnce(browser, folder) : await writeDemonstration(browser, folder)
  const mine = new Set(own === null ? [] : [own])
  return {
    progress,
    async open() {
      const copy = mkdtempSync(join(tmpdir(), 'nilgrowth-demonstration-'))
      mine.add(copy)
      cpSync(folder, copy, { recursive: true })
      return await runService({ folder: copy, demo: demonstration, screens: builtScreens })
    },
    [Symbol.dispose]() {
      for (const each of mine) rmSync(each, { recursive: true, force: true })
    },
  }
}

async function writtenOnce(browser: Browser, folder: string): Promise<readonly number[]> {
  // Making a folder succeeds for one of those who try.
  const isFirst = mkdirSync(folder, { recursive: true }) !== undefined
  return isFirst ? await told(folder, writeDemonstration(browser, folder)) : await heard(folder)
}

/** What became of the writing, beside the folder: the bar's values, or why it failed. */
const newsFile = (folder: string): string => `${folder}.json`
type News = { readonly progress: readonly number[] } | { readonly failure: string }

/** Tells the others of the run how the writing ended. */
async function told(folder: string, writing: Promise<readonly number[]>): Promise<readonly number[]> {
  const tell = (news: News): void => {
    writeFileSync(`${newsFile(folder)}.new`, JSON.stringify(news))
    renameSync(`${newsFile(folder)}.new`, newsFile(folder))
  }
  try {
    const progress = await writing
    tell({ progress })
    return progress
  } catch (error) {
    tell({ failure: String(error) })
    throw error
  }
}

async function heard(folder: string): Promise<readonly number[]> {
  // A minute more than whoever writes it gives itself, so that the reason is heard from there.
  const end = Date.now() + mostMilliseconds + 60_000
  while (!existsSync(newsFile(folder))) {
    assert.ok(Date.now() < end, 'the demonstration that another file of tests writes did not come')
    // oxlint-disable-next-line no-await-in-loop: looked for until it is there
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  const news = JSON.parse(readFileSync(newsFile(folder), 'utf8')) as News
  if ('failure' in news) assert.fail(`another file of tests could not write the demonstration: ${news.failure}`)
  return news.progress
}

/** Chooses the demonstration on the first-start screen and waits, as a person does, until the round appears. */
async function writeDemonstration(browser: Browser, folder: string): Promise<readonly number[]> {
  const progress = new Set<number>()
  await using service = await runService({ folder, demo: demonstration, screens: builtScreens })
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await page.getByRole('button', { name: 'Explore the demonstration unit' }).click()
  const bar = page.getByRole('progressbar', { name: 'The demonstration unit is being made' })
  const round = page.getByRole('heading', { level: 1, name: 'Round' })
  const end = Date.now() + mostMilliseconds
  // Looked at again and again until the bar has gone.
  /* oxlint-disable no-await-in-loop */
  while (!(await round.isVisible())) {
    assert.ok(Date.now() < end, 'the demonstration was not written in time')
    const value = await bar.getAttribute('value', { timeout: 2000 }).catch(() => null)
    if (value !== null) progress.add(Number(value))
    await round.waitFor({ timeout: 500 }).catch(() => null)
  }
  /* oxlint-enable no-await-in-loop */
  noTroubles(screen)
  assert.deepEqual(service.log, [])
  return [...progress]
}
