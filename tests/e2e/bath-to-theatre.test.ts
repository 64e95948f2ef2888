import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { KnownRow } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { nextThing, noTroubles, openScreen, type Screen, workAs } from '../support/screen.ts'
import { UnitClock } from '../support/unit-clock.ts'
import { dayUnit, furnishDay } from './walks/day-unit.ts'

/* A bath leads on from step to step: to its strips, from the last rinse to the decision, and to the case that waits for the set. */

const clock = new UnitClock('2026-03-02T07:00:00.000Z')
const pictures = process.env['BATH_PICTURES']
let browser: Browser
let service: RunningService
let screen: Screen

before(async () => {
  browser = await openBrowser()
  service = await runService({ screens: builtScreens, now: clock.now })
  await furnishDay(service, clock)
  screen = await openScreen(browser, service.url, { at: clock.milliseconds() })
  await workAs(screen.page, dayUnit.technician)
})

after(async () => {
  await browser.close()
  await service.close()
})

async function record<K extends KindName>(kind: K, body: Bodies[K]): Promise<void> {
  const entry = { id: v7(), site: 'unit', kind, happenedAt: clock.now(), by: 'person:sam-idris', workstation: 'Desk' }
  const answer = await service.ask('POST', '/api/entries', { ...entry, body })
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
}

async function look(page: Page, name: string): Promise<void> {
  if (pictures === undefined) return
  for (const theme of ['light', 'dark'] as const) {
    for (const width of [390, 820, 1440]) {
      /* oxlint-disable no-await-in-loop: one picture after the other */
      await page.emulateMedia({ colorScheme: theme })
      await page.setViewportSize({ width, height: 1000 })
      await page.screenshot({ path: `${pictures}/${name}-${width}-${theme}.png`, fullPage: true })
      assert.deepEqual(await sticksOut(page), [], `${name} at ${width} px`)
      /* oxlint-enable no-await-in-loop */
    }
  }
  await page.emulateMedia({ colorScheme: 'light' })
  await page.setViewportSize({ width: 820, height: 1180 })
}

const bath = 'bath:tray' as const
const product = 'ortho-phthalaldehyde-0.55' as const

test('a bath that is written down later counts its age from when it was poured, and leads to its strips', async () => {
  const { page } = screen
  await page.goto('/baths')
  await page.getByText('Pour a bath', { exact: true }).first().click()
  const pour = page.getByRole('form', { name: 'Pour a bath' })
  await pour.getByRole('combobox', { name: 'What is in it' }).selectOption(product)
  await pour.getByRole('textbox', { name: 'Container, by its lot number' }).fill('OPA-9')
  await pour.getByLabel('Expiry on the container').fill('2027-01-01')
  await pour.getByRole('textbox', { name: 'Where it stands' }).fill('Wash room')
  await pour.getByRole('spinbutton', { name: 'Litres' }).fill('20')
  await pour.getByRole('button', { name: 'At another time' }).click()
  await pour.getByLabel('When it happened').fill('2026-02-27T09:30')
  await pour.getByRole('button', { name: 'Pour a bath' }).click()
  await page.getByText('Recorded. The bath stands in the list above').waitFor()
  // By the letters of its label, not by the small ones of its key.
  await page.getByRole('link', { name: 'OPA-9', exact: true }).waitFor()
  // 14 days from the day that it was poured, not from the day of the entry.
  await page.getByRole('region', { name: 'Baths in use' }).getByText('to be discarded by 13 Mar, 09:30').waitFor()
  await page.getByRole('region', { name: 'Baths in use' }).getByRole('link').click()
  await nextThing(page).getByText('Open a bottle of strips and try it.').waitFor()
  await nextThing(page).getByRole('link', { name: 'Open a bottle of strips' }).click()
  await page.getByRole('form', { name: 'Open a bottle of strips' }).waitFor()
  await look(page, 'baths-bottle')
})

test('after the last rinse comes the decision, and what is ready is shown where it was treated', async () => {
  const expiresAt = '2026-12-31T00:00:00.000Z' as Bodies['bath-poured']['expiresAt']
  const controls = { fullStrength: { tried: 3, passed: 3 }, halfStrength: { tried: 3, failed: 3 } }
  const bottle = { lot: 'lot:strips' as const, product, number: 'STRIP-4', expiresAt, discardAt: expiresAt }
  await record('strip-bottle-opened', { ...bottle, ...controls })
  const can = { lot: 'lot:can' as const, place: 'Tray 2', litres: 8, activatedAt: clock.now(), expiresAt }
  await record('bath-poured', { bath, product, ...can })
  await record('strip-read', { bath, lot: 'lot:strips', result: 'pass', readAfterSeconds: 90 })
  await record('bath-warmed', { bath, celsius: 21 as Bodies['bath-warmed']['celsius'] })
  const immersion = 'immersion:one' as const
  const seen = { fullyImmersed: true, lumensFilled: true, cleanedAndDry: true, implant: false } as const
  const how = { how: 'manual', claim: 'disinfect', mycobacteriaSuspected: false } as const
  await record('immersion-started', { immersion, rounds: ['round:scope-1'], bath, ...how, ...seen })
  const { page } = screen
  await clock.passes(13, page)
  await record('immersion-ended', { immersion })
  await page.goto('/baths/tray')
  await nextThing(page).getByText('Rinse in fresh water: rinse 1 of 3.').waitFor()
  const rinse = { water: 'sterile', outlet: 'Sink 2', minutes: 1, litres: 8, lumenMillilitres: 100 } as const
  for (const next of ['rinse 2 of 3.', 'rinse 3 of 3.', 'All rinses are done. Decide below']) {
    /* oxlint-disable no-await-in-loop: one rinse after the other */
    await record('bath-rinsed', { immersion, ...rinse, alcoholAndAir: false })
    await nextThing(page).getByText(next).waitFor()
    await clock.passes(1, page)
    /* oxlint-enable no-await-in-loop */
  }
  const decide = page.getByRole('form', { name: 'Decide' })
  await decide.getByRole('radio', { name: 'Ready for use at once' }).check()
  await decide.getByText('No rule stands against this.').waitFor()
  await decide.getByRole('button', { name: 'Decide' }).click()
  await nextThing(page).getByText('A set is ready. Use it at once').waitFor()
  await page.getByRole('region', { name: 'Ready for use at once' }).getByText(dayUnit.scope).waitFor()
  // Nothing else can go in: the form says so, and where sets come from.
  const immerse = page.getByRole('form', { name: 'Immerse' }).getByRole('group', { name: 'What goes in' })
  await immerse.getByText('No set waits to go in.').waitFor()
  await immerse.getByRole('link', { name: 'To the wash room' }).waitFor()
  assert.deepEqual(await violationsOf(page), [])
  await look(page, 'bath-ready')
})

test('the theatre finds a set from a bath by its name, and is asked for no indicator that it cannot have', async () => {
  const { page } = screen
  await page.goto('/theatre/day')
  await page.getByRole('textbox', { name: 'Pack', exact: true }).fill(dayUnit.scope)
  await page.keyboard.press('Enter')
  const hand = page.getByRole('form', { name: `In hand: ${dayUnit.scope}` })
  await hand.getByRole('button', { name: 'Open this pack for the case' }).waitFor()
  assert.equal(await hand.getByRole('radio').count(), 0)
  await look(page, 'case-in-hand')
  await hand.getByRole('button', { name: 'Open this pack for the case' }).click()
  const opened = page.getByRole('region', { name: 'Packs opened for this case' })
  await opened.getByRole('link', { name: dayUnit.scope, exact: true }).waitFor()
  const { body } = await service.ask('GET', '/api/known/round:scope-1')
  assert.equal((body as KnownRow).standing, 'opened')
  noTroubles(screen)
})
