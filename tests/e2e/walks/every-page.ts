import assert from 'node:assert/strict'
import type { Browser, Page } from 'playwright-core'
import { demoStories } from '#demo/demo-stories.ts'
import { subjectKey } from '#road/subject.ts'
import { coloursOf, headingsOf, isSettled, sticksOut, violationsOf } from '../../support/page-check.ts'
import type { RunningService } from '../../support/running-service.ts'
import { noTroubles, openScreen, phone, tablet, workAs } from '../../support/screen.ts'
import { everyAddress, unknownAddresses, unknownAfterMark } from './page-addresses.ts'

const { lateWounds } = demoStories

/**
 * Opens every page once and looks at it: on a tablet in each light, then as wide as a phone. Nothing is found on any, and the
 * browser complains of nothing.
 */
export async function everyPageIsRight(browser: Browser, service: RunningService): Promise<void> {
  await using screen = await openScreen(browser, service.url, { size: tablet })
  const { page } = screen
  await workAs(page, 'Ingrid Thorsen')
  const found: string[] = []
  const note = (path: string, how: string, said: readonly string[]): void => {
    found.push(...said.map((each) => `${path} ${how}: ${each}`))
  }
  for (const path of await everyAddress(service)) {
    /* oxlint-disable no-await-in-loop: one page after the other */
    await page.goto(path)
    await isSettled(page)
    note(path, 'light', [...(await violationsOf(page)), ...(await headingsOf(page)), ...(await cautionsOf(page))])
    await page.emulateMedia({ colorScheme: 'dark' })
    note(path, 'dark', await coloursOf(page))
    await page.emulateMedia({ colorScheme: 'light' })
    await page.setViewportSize(phone)
    note(path, 'phone', [...(await sticksOut(page)), ...(await headingsOf(page))])
    await page.setViewportSize(tablet)
    /* oxlint-enable no-await-in-loop */
  }
  assert.equal(found.join('\n'), '')
  noTroubles(screen)
}

/** What the program is worth is said once on each page: where a decision is taken, or else at its foot. */
async function cautionsOf(page: Page): Promise<readonly string[]> {
  const count = await page.locator('.caution:visible').count()
  return count === 1 ? [] : [`said ${count} times that it is an aid to trained staff`]
}

export async function dialogsAreRight(browser: Browser, service: RunningService): Promise<void> {
  for (const theme of ['light', 'dark'] as const) await dialogsAreAccessible(browser, service, theme)
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
  await foldedIsRight(page, theme)
  noTroubles(screen)
}

/** What is folded on the page of the unit; of some hundred rows that are all made alike, the first dozen are looked at. */
async function foldedIsRight(page: Page, theme: string): Promise<void> {
  await page.goto('/unit')
  for (const name of ['People', 'Sets', 'Devices', 'Limits']) {
    /* oxlint-disable no-await-in-loop: one part after the other */
    const part = page.getByRole('region', { name, exact: true })
    assert.equal(await part.getByRole(name === 'Limits' ? 'row' : 'listitem').count(), 0, `${name} is folded`)
    await part.getByRole('heading', { name, exact: true }).click()
    await part
      .getByRole(name === 'Limits' ? 'row' : 'listitem')
      .nth(12)
      .waitFor()
    /* oxlint-enable no-await-in-loop */
  }
  const looked = ['tr:nth-child(-n + 12)', 'li:nth-child(-n + 12)'].map((rows) => `.folded[open] ${rows}`).join(', ')
  assert.deepEqual(await violationsOf(page, looked), [], `what is folded, ${theme}`)
  await page.setViewportSize(phone)
  assert.deepEqual(await sticksOut(page), [], 'what is folded, on a phone')
}

/** A name that nothing has is answered in plain words, with a heading, a search and the way to the list of that kind. */
export async function unknownNamesAreTold(browser: Browser, service: RunningService): Promise<void> {
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  const found: string[] = []
  const look = async (path: string): Promise<void> => {
    await page.goto(path)
    await page.getByRole('heading', { level: 1 }).first().waitFor()
    const told = page.getByRole('region', { name: /not on record$/ })
    await told.getByRole('textbox', { name: 'Look for it by name or key' }).waitFor()
    await told.getByText(/^Wanted: the .+ “no.such.thing”\. Nothing of that name is on record\.$/).waitFor()
    assert.equal(await told.getByRole('link').count(), 2, path)
    const seen = [...(await violationsOf(page)), ...(await sticksOut(page)), ...(await headingsOf(page))]
    found.push(...seen.map((each) => `${path}: ${each}`))
    assert.ok(!(await page.locator('main').innerText()).includes('/api'), path)
  }
  /* oxlint-disable no-await-in-loop: one page after the other */
  for (const path of unknownAddresses()) {
    await look(path)
    await page.getByRole('heading', { level: 1, name: /not on record$/ }).waitFor()
  }
  for (const path of unknownAfterMark) await look(path)
  /* oxlint-enable no-await-in-loop */
  assert.equal(found.join('\n'), '')
  // The browser complains of what is not found; of nothing else.
  assert.deepEqual(
    screen.troubles.filter((each) => !/^(?:404|422): GET|status of (?:404|422)/.test(each)),
    [],
  )
  await page.goto('/rounds/no-such-thing')
  const told = page.getByRole('region', { name: 'Round not on record' })
  await told.getByRole('textbox').fill('basic-4')
  await told.getByRole('button', { name: 'Find', exact: true }).click()
  await told.getByRole('list', { name: 'Found' }).getByRole('link').first().click()
  await page.getByRole('heading', { level: 1, name: /Basic/i }).waitFor()
}
