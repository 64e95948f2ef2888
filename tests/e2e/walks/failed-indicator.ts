import assert from 'node:assert/strict'
import type { Browser, Page } from 'playwright-core'
import { demoStories } from '#demo/demo-stories.ts'
import { verify } from '#journal/verify/verify.ts'
import { theRoad } from '#road/the-road.ts'
import { subjectKey } from '#road/subject.ts'
import type { Bodies } from '#road/kinds.ts'
import type { EntriesPage, KnownRow, RecallAnswer } from '#service/api-types.ts'
import type { RunningService } from '../../support/running-service.ts'
import { goTo, nextThing, noTroubles, openScreen, workAs } from '../../support/screen.ts'

const { failedIndicator: story } = demoStories
const recallKey = subjectKey(story.recall)

const places = {
  shelf: { name: 'On the shelf or waiting', outcome: 'Pulled from the shelf' },
  used: { name: 'Opened in a case', outcome: 'Used: the patient is followed' },
} as const
type Place = (typeof places)[keyof typeof places]

/** From what stands on the home screen to a recall that is closed, with every pack accounted for. */
export async function closeFailedIndicator(browser: Browser, service: RunningService): Promise<void> {
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await workAs(page, 'Ingrid Thorsen')

  // The worst thing in the unit stands on the home screen; it leads to the recall.
  await nextThing(page).getByText('open, packs to account for').waitFor()
  await nextThing(page).getByRole('link', { name: 'Look at' }).click()
  await page.getByRole('heading', { level: 1, name: `Recall ${recallKey}` }).waitFor()
  await showsItsReach(page, service)

  await mayNotBeClosed(page, service)
  await defectIsFound(page)
  await page.getByRole('heading', { level: 1, name: `Recall ${recallKey}` }).waitFor()

  await accountTogether(page, service)
  await account(page, places.used, story.packs - story.onShelf.length)
  await page.getByText(`${story.packs} of ${story.packs} packs accounted for`).waitFor()

  await namesThePatients(page, service)
  await page.getByText('Nothing stands against closing.').waitFor()
  await fillClosing(page)
  await page.getByRole('button', { name: 'Close recall' }).click()
  await nextThing(page).getByText('Closed.').waitFor()
  await page.getByText('The drain of the chamber was blocked.').first().waitFor()

  await isClosed(service)
  await staysOutOfService(page)
  noTroubles(screen)
}

async function showsItsReach(page: Page, service: RunningService): Promise<void> {
  const recall = await recallOf(service)
  assert.equal(recall.packs.length, story.packs)
  await page.getByText(`0 of ${story.packs} packs accounted for`).waitFor()
  await page.getByRole('link', { name: subjectKey(story.lastGoodLoad) }).waitFor()
  const loads = page.getByRole('table', { name: `Loads (${story.loads})` })
  for (const load of recall.loads) {
    // oxlint-disable-next-line no-await-in-loop
    await loads.getByRole('link', { name: subjectKey(load.load), exact: true }).waitFor()
  }
  // Each pack stands under the place where the record says it is.
  for (const pack of recall.packs) {
    const place = pack.case === null ? places.shelf : places.used
    const line = page
      .getByRole('region', { name: place.name })
      .getByRole('listitem')
      .filter({ hasText: subjectKey(pack.round) })
    // oxlint-disable-next-line no-await-in-loop
    const text = (await line.textContent()) ?? ''
    assert.match(text, pack.case === null ? /On the shelf, Store/ : new RegExp(`case ${subjectKey(pack.case)}`, 'i'))
  }
}

/** Nobody can close it while packs are open, on the screen or past it. */
async function mayNotBeClosed(page: Page, service: RunningService): Promise<void> {
  await fillClosing(page)
  const form = page.getByRole('form', { name: 'Close recall' })
  await form.getByText('The rules stand against this:').waitFor()
  await form.getByRole('list', { name: 'Findings' }).getByText('Stop.').first().waitFor()
  assert.equal(await form.getByRole('button', { name: 'Close recall' }).isDisabled(), true)
  const against = page.getByRole('list', { name: 'What still stands against closing' })
  assert.match((await against.textContent()) ?? '', /Not every pack is accounted for.*found 0 of 20/)
  assert.equal((await recallOf(service)).standing, 'open')
}

async function fillClosing(page: Page): Promise<void> {
  const form = page.getByRole('form', { name: 'Close recall' })
  await form.getByRole('textbox', { name: 'Cause' }).fill('The drain of the chamber was blocked.')
  await form.getByRole('textbox', { name: 'What was done about it' }).fill('Cleaned; strainer looked at every week.')
}

/** The engineer's finding is said on the page of the failed load; the packs held until then are recalled. */
async function defectIsFound(page: Page): Promise<void> {
  await page
    .getByRole('link', { name: subjectKey(story.failedLoad), exact: true })
    .first()
    .click()
  await page.getByRole('heading', { level: 1, name: `Load ${subjectKey(story.failedLoad)}` }).waitFor()
  await page.getByRole('heading', { name: 'Biological: Growth' }).waitFor()
  await page.getByText('Open a recall', { exact: true }).click()
  const form = page.getByRole('form', { name: 'Open recall' })
  await form
    .getByRole('textbox', { name: 'What was found' })
    .fill('The engineer found the drain of the chamber blocked.')
  await form.getByRole('checkbox', { name: 'A defect of the machine or of practice is proven' }).check()
  await form.getByRole('button', { name: 'Open recall' }).click()
}

/** All packs on the shelf at once: what cannot be kept is told for each, then each is kept as an entry of its own. */
async function accountTogether(page: Page, service: RunningService): Promise<void> {
  const count = story.onShelf.length
  const region = page.getByRole('region', { name: places.shelf.name })
  await region.getByRole('checkbox', { name: `Choose all ${count} that are open here` }).check()
  const form = region.getByRole('form', { name: 'Account for several packs' })
  const outcome = form.getByRole('combobox', { name: 'One outcome for all that are chosen' })
  // No pack here was opened for anybody.
  assert.equal((await outcome.textContent())?.includes(places.used.outcome), false)
  await outcome.selectOption({ label: places.shelf.outcome })
  await form.getByRole('textbox', { name: 'Note' }).fill('n'.repeat(501))
  await form.getByRole('button', { name: `Account for ${count} packs` }).click()
  await form.getByText(`0 of ${count} kept, each as its own entry.`).waitFor()
  assert.equal(await form.getByRole('list', { name: 'Not kept' }).getByRole('alert').count(), count)
  await form.getByRole('textbox', { name: 'Note' }).fill('Taken down by two people.')
  await form.getByRole('button', { name: `Account for ${count} packs` }).click()
  await form.getByText(`${count} of ${count} kept, each as its own entry.`).waitFor()
  await page.getByText(`${count} of ${story.packs} packs accounted for`).waitFor()
  const { body } = await service.ask('GET', `/api/entries?subject=${story.recall}`)
  const accounted = (body as EntriesPage).entries.filter((entry) => entry.kind === 'recall-accounted')
  const rounds = accounted.map((entry) => (entry.body as Bodies['recall-accounted']).round)
  assert.deepEqual(new Set(rounds), new Set(story.onShelf))
  assert.equal(accounted.length, count)
}

/** The list to print names each patient once, by pseudonym. */
async function namesThePatients(page: Page, service: RunningService): Promise<void> {
  const { packs } = await recallOf(service)
  const cases = new Set(packs.flatMap((pack) => pack.case ?? []))
  const table = page.getByRole('table', { name: `Patients to be told (${cases.size})` })
  for (const id of cases) {
    // oxlint-disable-next-line no-await-in-loop
    const { body } = await service.ask('GET', `/api/known/${encodeURIComponent(id)}`)
    const patient = (body as KnownRow<'case'>).state.booked?.patient ?? 'nobody'
    // oxlint-disable-next-line no-await-in-loop
    await table.getByRole('rowheader', { name: patient, exact: true }).waitFor()
  }
  assert.equal(await table.getByRole('rowheader').count(), cases.size)
}

/** Accounts for every pack of a place, one by one, and is told how many are done. */
async function account(page: Page, place: Place, count: number): Promise<void> {
  const region = page.getByRole('region', { name: place.name })
  const choice = region.getByRole('combobox', { name: /^What was done with/ })
  await choice.first().waitFor()
  assert.equal(await choice.count(), count)
  assert.equal((await choice.first().textContent())?.includes(place.outcome), true)
  for (let left = count; left > 0; left -= 1) {
    /* oxlint-disable no-await-in-loop: one pack after the other */
    await choice.first().selectOption({ label: place.outcome })
    await region
      .getByRole('button', { name: /^Account ?: / })
      .first()
      .click()
    await page
      .getByText(new RegExp(`^${doneOf(place, count - left + 1)} of ${story.packs} packs accounted for$`))
      .waitFor()
    /* oxlint-enable no-await-in-loop */
  }
  assert.equal(await choice.count(), 0)
}

function doneOf(place: Place, count: number): number {
  return place === places.shelf ? count : story.onShelf.length + count
}

async function isClosed(service: RunningService): Promise<void> {
  const recall = await recallOf(service)
  assert.equal(recall.standing, 'closed')
  for (const pack of recall.packs) {
    assert.equal(pack.outcome, pack.case === null ? 'pulledFromShelf' : 'patientToBeFollowed', pack.round)
  }
  const verified = await verify({ at: { kind: 'sqlite', file: service.file }, road: theRoad })
  assert.equal(verified.kind, 'sound', JSON.stringify(verified))
}

/** A closed recall proves no steriliser. */
async function staysOutOfService(page: Page): Promise<void> {
  await goTo(page, 'Machines')
  const line = page.getByRole('listitem').filter({ has: page.getByRole('link', { name: /Steriliser B/ }) })
  await line.getByText('Out of service', { exact: true }).waitFor()
}

export async function recallOf(service: RunningService): Promise<RecallAnswer> {
  const { status, body } = await service.ask('GET', `/api/recalls/${story.recall}`)
  assert.equal(status, 200)
  return body as RecallAnswer
}
