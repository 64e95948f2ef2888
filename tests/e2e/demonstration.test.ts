import assert from 'node:assert/strict'
import { test } from 'node:test'
import { withDemonstration } from '../support/demonstration-store.ts'
import { seeCleaningTrend } from './walks/cleaning-trend.ts'
import { closeFailedIndicator } from './walks/failed-indicator.ts'
import { traceLateWounds } from './walks/late-wounds.ts'
import { typeNonsense } from './walks/nonsense.ts'
import { closeRecallByKeyboard } from './walks/recall-by-keyboard.ts'

/* The demonstration unit is written once, by its own first start; whoever changes it takes a copy. */

const demonstration = withDemonstration()

test('the first start writes the demonstration and shows how far it is', () => {
  const { progress } = demonstration
  assert.ok(progress.length >= 3, `the bar moved: ${progress.join(', ')}`)
  assert.deepEqual(
    progress,
    progress.toSorted((a, b) => a - b),
  )
})

test('a failed indicator is followed to its packs, each is accounted for, and only then the recall closes', async () => {
  await using service = await demonstration.open()
  await closeFailedIndicator(demonstration.browser, service)
})

test('the same by keyboard alone, with the focus in sight at every stop', async () => {
  await using service = await demonstration.open()
  await closeRecallByKeyboard(demonstration.browser, service)
})

test('two late wounds lead back to one load, and the load forward to all who were exposed', async () => {
  await using service = await demonstration.open()
  await traceLateWounds(demonstration.browser, service)
})

test('tests of cleaning are there to be seen, by washer and by hand', async () => {
  await using service = await demonstration.open()
  await seeCleaningTrend(demonstration.browser, service)
})

test('nonsense is refused in words, stays where it was typed, and pressing twice keeps one entry', async () => {
  await using service = await demonstration.open()
  await typeNonsense(demonstration.browser, service)
})
