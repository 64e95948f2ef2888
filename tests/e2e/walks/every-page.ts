import assert from 'node:assert/strict'
import type { Browser, Page } from 'playwright-core'
import { demoStories } from '#demo/demo-stories.ts'
import { subjectKey } from '#road/subject.ts'
import type { KnownPage } from '#service/api-types.ts'
import { isSettled, sticksOut, violationsOf } from '../../support/page-check.ts'
import type { RunningService } from '../../support/running-service.ts'
import { noTroubles, openScreen, phone, tablet, workAs } from '../../support/screen.ts'

const { failedIndicator, lateWounds } = demoStories

/** Every address of the program, with something to see on it. */
export async function everyPage(service: RunningService): Promise<readonly string[]> {
  const keyOf = async (kind: string, standing: string): Promise<string> => {
    const { body } = await service.ask('GET', `/api/known?kind=${kind}&standing=${standing}&limit=1`)
    const [row] = (body as KnownPage).rows
    assert.ok(row, `the demonstration has a ${kind} that is ${standing}`)
    return subjectKey(row.subject)
  }
  return [
    '/',
    `/rounds/${subjectKey(failedIndicator.openedAfterFailure)}`,
    '/wash-room',
    `/wash-room?round=${await keyOf('round', 'soaking')}`,
    '/wash-room/water',
    `/wash-room/cards?device=${await keyOf('device', 'registered')}`,
    '/packing',
    `/packing/${await keyOf('round', 'onShelf')}`,
    '/machines',
    '/machines/a',
    `/machines/${subjectKey(failedIndicator.machine)}`,
    '/machines/a/build',
    `/loads/${subjectKey(lateWounds.load)}`,
    `/loads/${await keyOf('load', 'quarantined')}`,
    '/baths',
    '/lots',
    `/lots/${await keyOf('lot', 'usable')}`,
    '/safety',
    `/items/${await keyOf('item', 'registered')}`,
    '/shelf',
    '/theatre',
    '/theatre/book',
    `/theatre/${subjectKey(failedIndicator.runningCase)}`,
    `/theatre/${await keyOf('case', 'recorded')}`,
    '/wounds',
    '/wounds/note',
    `/wounds/note?case=${await keyOf('case', 'recorded')}`,
    '/wounds/follow-up',
    '/wounds/rates',
    '/wounds/charts',
    '/wounds/suspects',
    '/wounds/investigations',
    '/trace',
    `/trace?subject=${lateWounds.load}`,
    `/trace?subject=${lateWounds.wounds[0]}`,
    `/recalls/${subjectKey(failedIndicator.recall)}`,
    '/unit',
    ...['person', 'device', 'set', 'machine'].map((what) => `/unit/register/${what}`),
    `/devices/${await keyOf('device', 'registered')}`,
    `/sets/${await keyOf('set', 'onRound')}`,
    '/bench',
    '/no-such-page',
  ]
}

interface Look {
  readonly size: { readonly width: number; readonly height: number }
  readonly theme: 'light' | 'dark'
  readonly see: (page: Page) => Promise<readonly string[]>
}

/** Looks at every page in one light at one size; nothing is found on any, and the browser complains of nothing. */
async function lookAtAll(browser: Browser, service: RunningService, { size, theme, see }: Look): Promise<void> {
  await using screen = await openScreen(browser, service.url, { size, theme })
  const { page } = screen
  await workAs(page, 'Ingrid Thorsen')
  const found: string[] = []
  for (const path of await everyPage(service)) {
    /* oxlint-disable no-await-in-loop: one page after the other */
    await page.goto(path)
    await isSettled(page)
    found.push(...(await see(page)).map((each) => `${path} ${theme}: ${each}`))
    /* oxlint-enable no-await-in-loop */
  }
  assert.equal(found.join('\n'), '')
  noTroubles(screen)
}

export async function everyPageIsAccessible(
  browser: Browser,
  service: RunningService,
  theme: 'light' | 'dark' = 'light',
): Promise<void> {
  await lookAtAll(browser, service, { size: tablet, theme, see: violationsOf })
  await dialogsAreAccessible(browser, service, theme)
}

/** What opens over a page: the people, what stands behind a figure, what was found. */
async function dialogsAreAccessible(browser: Browser, service: RunningService, theme: 'light' | 'dark'): Promise<void> {
  await using screen = await openScreen(browser, service.url, { theme })
  const { page } = screen
  const closes = async (name: string | RegExp): Promise<void> => {
    const dialog = page.getByRole('dialog', { name })
    await dialog.waitFor()
    await isSettled(page)
    assert.deepEqual(await violationsOf(page), [], `${String(name)} ${theme}`)
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'detached' })
  }
  await page.getByRole('button', { name: 'Who is working?' }).click()
  await closes('Who is working?')
  await page.getByRole('searchbox', { name: 'Find or scan' }).fill('basic')
  await page.keyboard.press('Enter')
  await closes('Found')
  await page.goto(`/loads/${subjectKey(lateWounds.load)}`)
  await page
    .getByRole('button', { name: /^Holding time|Holding time: why$/ })
    .first()
    .click()
  await closes('Holding time')
  noTroubles(screen)
}

export async function everyPageFitsAPhone(browser: Browser, service: RunningService): Promise<void> {
  await lookAtAll(browser, service, { size: phone, theme: 'light', see: sticksOut })
}
