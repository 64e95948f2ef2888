import assert from 'node:assert/strict'
import type { Browser, Locator, Page } from 'playwright-core'
import { demoStories } from '#demo/demo-stories.ts'
import { subjectKey } from '#road/subject.ts'
import type { RunningService } from '../../support/running-service.ts'
import { goTo, noTroubles, openScreen } from '../../support/screen.ts'

const { lateWounds: story } = demoStories
const loadKey = subjectKey(story.load)
/** A follow-up that ends on this day has seen the usual wounds and none of these. */
const usualDays = 30

/** From two late wounds back to the load that they share, and from it forward to everyone who was exposed. */
export async function traceLateWounds(browser: Browser, service: RunningService): Promise<void> {
  await using screen = await openScreen(browser, service.url)
  const { page } = screen

  await traceBack(page, 0)
  const first = await keysIn(linkTable(page))
  assert.ok(first.has(loadKey))

  await traceBack(page, 3)
  const second = await keysIn(linkTable(page))
  assert.ok(second.has(loadKey), 'the other wound was traced to the same load')
  const shared = [...first].filter((key) => second.has(key) && /^[abw]-\d{4}$/.test(key))
  assert.ok(shared.length < 4, `two wounds have few loads and washes in common: ${shared.join(', ')}`)

  // Forward from the load, by its row in the picture.
  await picture(page).getByRole('link', { name: loadKey }).click()
  await page.getByRole('heading', { level: 1, name: loadKey }).waitFor()
  await page.getByRole('radio', { name: 'Forward: what came after' }).check()
  for (const each of [...story.exposedCases, ...story.wounds]) {
    const key = subjectKey(each)
    // oxlint-disable-next-line no-await-in-loop
    await picture(page).getByRole('link', { name: key }).waitFor()
    // oxlint-disable-next-line no-await-in-loop
    await linkTable(page).getByRole('link', { name: key }).first().waitFor()
  }
  const reached = await keysIn(linkTable(page))
  const cases = [...reached].filter((key) => /^c-\d{4}$/.test(key))
  assert.deepEqual(cases.toSorted(), story.exposedCases.map(subjectKey).toSorted(), 'nobody else was exposed')
  noTroubles(screen)
}

/** Opens one of the late wounds from the list of all and looks back. */
async function traceBack(page: Page, place: number): Promise<void> {
  await goTo(page, 'Wounds')
  const late = await lateRows(page)
  assert.equal(late.length, story.wounds.length)
  await late[place]?.getByRole('link', { name: /Trace back/ }).click()
  await page.getByRole('heading', { level: 1, name: /^Trace of / }).waitFor()
  assert.equal(await page.getByRole('radio', { name: 'Back: what came before' }).isChecked(), true)
  await picture(page).getByRole('link', { name: loadKey }).waitFor()
  await linkTable(page).getByRole('link', { name: loadKey }).first().waitFor()
}

/** The rows that anyone would notice: those that came weeks later than the others. */
async function lateRows(page: Page): Promise<readonly Locator[]> {
  const rows = page.getByRole('table', { name: 'Wounds' }).getByRole('row')
  await rows
    .getByText(/^day \d+/)
    .last()
    .waitFor()
  // A row shows its key until its name is known; the last such link goes when every name has come.
  await page.getByRole('link', { name: 'case:' }).first().waitFor({ state: 'detached' })
  const texts = await rows.allTextContents()
  return texts.flatMap((text, index) => (Number(/day (\d+)/.exec(text)?.[1] ?? 0) > usualDays ? [rows.nth(index)] : []))
}

function picture(page: Page): Locator {
  return page.getByRole('figure', { name: /^Picture of the trace/ })
}

function linkTable(page: Page): Locator {
  return page.getByRole('table', { name: 'Every link, with its entry' })
}

async function keysIn(table: Locator): Promise<ReadonlySet<string>> {
  const texts = await table.getByRole('link').allTextContents()
  return new Set(texts.flatMap((text) => /[a-z]+-\d{4}\b/.exec(text)?.[0] ?? []))
}
