import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { openBrowser } from '../support/browser.ts'
import { type DemonstrationStore, setUpDemonstration } from '../support/demonstration-store.ts'
import { dialogsAreRight, everyPageIsRight, unknownNamesAreTold } from './walks/every-page.ts'

/* Every page of the program on the demonstration: its form, not its stories. */

let browser: Browser
let store: DemonstrationStore

before(async () => {
  browser = await openBrowser()
  store = await setUpDemonstration(browser)
})

after(async () => {
  // First, since a browser that is left open keeps the process, and there is no store when it could not be written.
  await browser.close()
  store[Symbol.dispose]()
})

test('every page is accessible and without complaint on a tablet, light and dark, and none can be pushed sideways on a phone', async () => {
  await using service = await store.open()
  await everyPageIsRight(browser, service)
})

test('what opens over a page is accessible, light and dark', async () => {
  await using service = await store.open()
  await dialogsAreRight(browser, service)
})

test('a name that nothing has is told in plain words, with a heading, a search and the list of its kind', async () => {
  await using service = await store.open()
  await unknownNamesAreTold(browser, service)
})
