import { test } from 'node:test'
import { withDemonstration } from '../support/demonstration-store.ts'
import { dialogsAreRight, everyPageIsRight, unknownNamesAreTold } from './walks/every-page.ts'

/* Every page of the program on the demonstration: its form, not its stories. */

const demonstration = withDemonstration()

test('every page is accessible and without complaint on a tablet, light and dark, and none can be pushed sideways on a phone', async () => {
  await using service = await demonstration.open()
  await everyPageIsRight(demonstration.browser, service)
})

test('what opens over a page is accessible, light and dark', async () => {
  await using service = await demonstration.open()
  await dialogsAreRight(demonstration.browser, service)
})

test('a name that nothing has is told in plain words, with a heading, a search and the list of its kind', async () => {
  await using service = await demonstration.open()
  await unknownNamesAreTold(demonstration.browser, service)
})
