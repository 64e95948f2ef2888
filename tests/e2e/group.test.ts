import assert from 'node:assert/strict'
import { test } from 'node:test'
import { builtScreens } from '#service/open-service.ts'
import { openUnit } from '../service/hand.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { runService } from '../support/running-service.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'

/* Whoever answers for a group sees its sites side by side, at the group's own unit and nowhere else. */

test('the sites of a group stand side by side on a phone, and a service that compares none says so', async () => {
  await using north = await runService({ screens: builtScreens, environment: { NILGROWTH_SITE: 'north' } })
  const data = { NILGROWTH_DATA: north.file }
  await openUnit(north)
  await using office = await runService({
    screens: builtScreens,
    environment: { ...data, NILGROWTH_SITE: 'office', NILGROWTH_GROUP: 'north,west' },
  })
  await openUnit(office)
  const browser = await openBrowser()
  try {
    await using screen = await openScreen(browser, office.url, { size: phone })
    const { page } = screen
    await workAs(page, 'Ada')
    await page.goto('/unit')
    await page.getByRole('link', { name: 'Sites side by side' }).click()
    const rows = page.getByRole('table', { name: 'Sites side by side' }).getByRole('row')
    await rows.nth(2).waitFor()
    assert.equal(await rows.count(), 3)
    assert.match(await rows.nth(1).innerText(), /Harbour Road north, last recorded [^]*none read[^]*0 of 0/)
    assert.match(await rows.nth(2).innerText(), /west no unit is open there[^]*none read/)
    const answered = page.waitForResponse((answer) => answer.url().endsWith('/api/group?days=90'))
    await page.getByRole('combobox', { name: 'Of the last' }).selectOption('90 days')
    assert.equal((await answered).status(), 200)
    await rows.nth(2).waitFor()
    assert.deepEqual([...(await sticksOut(page)), ...(await violationsOf(page))], [])
    noTroubles(screen)

    await using alone = await openScreen(browser, north.url, { size: phone })
    await alone.page.goto('/unit')
    await alone.page.getByRole('heading', { level: 1 }).waitFor()
    assert.equal(await alone.page.getByRole('link', { name: 'Sites side by side' }).count(), 0)
    await alone.page.goto('/unit/group')
    await alone.page.getByText(/^This service compares no other sites\./).waitFor()
    noTroubles(alone)
  } finally {
    await browser.close()
  }
})
