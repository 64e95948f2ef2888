import assert from 'node:assert/strict'
import type { Browser, Page } from 'playwright-core'
import { demoStories } from '#demo/demo-stories.ts'
import { subjectKey } from '#road/subject.ts'
import { Keyboard } from '../../support/keyboard.ts'
import type { RunningService } from '../../support/running-service.ts'
import { nextThing, noTroubles, openScreen } from '../../support/screen.ts'
import { recallOf } from './failed-indicator.ts'

const { failedIndicator: story } = demoStories

/** The failed indicator to the closed recall once more, and no hand leaves the keyboard. */
export async function closeRecallByKeyboard(browser: Browser, service: RunningService): Promise<void> {
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  const keyboard = new Keyboard(page)
  await nextThing(page).waitFor()

  // The first stop of every page leads past the plan of the unit.
  await page.keyboard.press('Tab')
  await keyboard.goTo(page.getByRole('link', { name: 'Skip to the page' }))

  await keyboard.press(page.getByRole('button', { name: 'Who is working?' }))
  await keyboard.press(page.getByRole('dialog').getByRole('button', { name: 'Ingrid Thorsen' }))
  await page.getByRole('button', { name: 'Working: Ingrid Thorsen. Change' }).waitFor()
  await keyboard.press(nextThing(page).getByRole('link', { name: 'Look at' }))
  await page.getByRole('heading', { level: 1, name: /^Recall / }).waitFor()

  await keyboard.press(page.getByRole('main').getByRole('link', { name: subjectKey(story.failedLoad), exact: true }))
  await page.getByRole('heading', { level: 1, name: /^Load / }).waitFor()
  await sayDefect(page, keyboard)
  await page.getByRole('heading', { level: 1, name: /^Recall / }).waitFor()

  await accountShelf(page, keyboard)
  for (let done = story.onShelf.length; done < story.packs; done += 1) {
    // oxlint-disable-next-line no-await-in-loop
    await accountNext(page, keyboard, done)
  }

  await keyboard.press(nextThing(page).getByRole('link', { name: 'Close the recall' }), 'Enter', 'Shift+Tab')
  const close = page.getByRole('form', { name: 'Close recall' })
  await keyboard.type(close.getByRole('textbox', { name: 'Cause' }), 'The drain of the chamber was blocked.')
  await keyboard.type(close.getByRole('textbox', { name: 'What was done about it' }), 'Cleaned, looked at each week.')
  await keyboard.press(close.getByRole('button', { name: 'Close recall' }))
  await nextThing(page).getByText('Closed.').waitFor()
  assert.equal((await recallOf(service)).standing, 'closed')
  noTroubles(screen)
}

async function sayDefect(page: Page, keyboard: Keyboard): Promise<void> {
  await keyboard.press(page.getByText('Open a recall', { exact: true }))
  const form = page.getByRole('form', { name: 'Open recall' })
  await keyboard.type(form.getByRole('textbox', { name: 'What was found' }), 'The drain of the chamber was blocked.')
  await keyboard.press(
    form.getByRole('checkbox', { name: 'A defect of the machine or of practice is proven' }),
    'Space',
  )
  await keyboard.press(form.getByRole('button', { name: 'Open recall' }))
}

/** All packs on the shelf at once, by the box that ticks them. */
async function accountShelf(page: Page, keyboard: Keyboard): Promise<void> {
  const count = story.onShelf.length
  const region = page.getByRole('region', { name: 'On the shelf or waiting' })
  await keyboard.press(region.getByRole('checkbox', { name: /^Choose all/ }), 'Space')
  const form = region.getByRole('form', { name: 'Account for several packs' })
  await keyboard.choose(form.getByRole('combobox'), 'Pulled from the shelf')
  await keyboard.press(form.getByRole('button', { name: `Account for ${count} packs` }))
  await page.getByText(`${count} of ${story.packs} packs accounted for`).waitFor()
}

/** The page names the pack that comes next and leads to it. */
async function accountNext(page: Page, keyboard: Keyboard, done: number): Promise<void> {
  await keyboard.press(nextThing(page).getByRole('link', { name: 'To the pack' }), 'Enter', 'Shift+Tab')
  const choice = page.getByRole('combobox', { name: /^What was done with/ })
  const region = page.getByRole('region', { name: 'Opened in a case' })
  const first = region.getByRole('combobox', { name: /^What was done with/ }).first()
  assert.equal(await choice.count(), story.packs - done)
  await keyboard.choose(first, 'Used: the patient is followed')
  await keyboard.press(region.getByRole('button', { name: /^Account ?: / }).first())
  await page.getByText(`${done + 1} of ${story.packs} packs accounted for`).waitFor()
}
