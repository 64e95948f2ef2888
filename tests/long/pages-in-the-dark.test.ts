import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { everyPageIsAccessible } from '../e2e/walks/every-page.ts'
import { openBrowser } from '../support/browser.ts'
import { type DemonstrationStore, setUpDemonstration } from '../support/demonstration-store.ts'

/* Every page of the demonstration in the dark theme, as the whole tests see it in the light one. */

let browser: Browser
let store: DemonstrationStore

before(async () => {
  browser = await openBrowser()
  store = await setUpDemonstration(browser)
})

after(async () => {
  store[Symbol.dispose]()
  await browser.close()
})

test('every page is accessible and without complaint on a tablet, dark', async () => {
  await using service = await store.open()
  await everyPageIsAccessible(browser, service, 'dark')
})
