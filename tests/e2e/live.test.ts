import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import type { EntriesPage } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { goTo, noTroubles, openScreen, until, workAs } from '../support/screen.ts'

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

/** A unit with a steriliser, and a load in it that carries a biological indicator. */
async function openUnit(service: RunningService): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  await record(service, 'machine-registered', {
    machine: 'machine:north',
    name: 'Steriliser North',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 250,
    programs: ['porous-134'],
  })
  await record(service, 'load-built', {
    load: 'load:north-1',
    machine: 'machine:north',
    program: 'porous-134',
    purpose: 'biologicalTest',
    rounds: [],
    challenge: { biologicalLot: 'B-77' },
  })
}

async function record<K extends KindName>(service: RunningService, kind: K, body: Bodies[K]): Promise<void> {
  const by = 'person:nora-castellanos'
  const entry = { id: v7(), site: 'unit', kind, happenedAt: new Date().toISOString(), by, workstation: 'Desk', body }
  const { status, body: answer } = await service.ask('POST', '/api/entries', entry)
  assert.equal(status, 201, JSON.stringify(answer))
}

async function countOf(service: RunningService, subject: SubjectId): Promise<number> {
  const { body } = await service.ask('GET', `/api/entries?subject=${encodeURIComponent(subject)}`)
  return (body as EntriesPage).entries.length
}

async function registerPerson(page: Page, name: string): Promise<void> {
  const form = page.getByRole('form', { name: 'Register a person' })
  await form.getByRole('textbox', { name: 'Name' }).fill(name)
  await form.getByRole('checkbox', { name: 'Theatre', exact: true }).check()
  await form.getByRole('button', { name: 'Register a person' }).click()
}

/** The form is emptied when its entry is kept, here or by the service. */
async function isReadyAgain(page: Page): Promise<void> {
  await until(
    'the form is empty again',
    () => page.getByRole('form', { name: 'Register a person' }).getByRole('textbox', { name: 'Name' }).inputValue(),
    (name) => name === '',
  )
}

test('what one screen records appears on another, and an alarm on every open screen until each has taken note', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  await using writer = await openScreen(browser, service.url)
  await using reader = await openScreen(browser, service.url)
  await using third = await openScreen(browser, service.url)
  await workAs(writer.page, 'Nora Castellanos')
  await goTo(reader.page, 'Unit')
  await goTo(third.page, 'Shelf')
  const people = reader.page.getByRole('region', { name: 'People' })
  await people.getByRole('link', { name: 'Nora Castellanos' }).waitFor()

  await goTo(writer.page, 'Unit')
  await writer.page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
  await registerPerson(writer.page, 'Sam Idris')
  await people.getByRole('link', { name: 'Sam Idris' }).waitFor()

  await goTo(writer.page, 'Machines')
  await writer.page.getByRole('main').getByRole('link', { name: 'north-1', exact: true }).click()
  await writer.page.getByText('Read the biological indicator', { exact: true }).click()
  const form = writer.page.getByRole('form', { name: 'Record biological indicator' })
  await form.getByRole('group', { name: 'Result' }).getByRole('radio', { name: 'Growth', exact: true }).check()
  await form.getByText('Growth opens a recall at once.').waitFor()
  await form
    .getByRole('group', { name: /^Control/ })
    .getByRole('radio', { name: 'Growth', exact: true })
    .check()
  await form.getByRole('spinbutton', { name: 'Incubated, hours' }).fill('24')
  await form.getByRole('button', { name: 'Record biological indicator' }).click()

  for (const { page } of [writer, reader, third]) {
    /* oxlint-disable no-await-in-loop: one screen after the other */
    const alarm = page.getByRole('region', { name: 'Alarms' }).getByRole('alert')
    await alarm.getByText('Growth in a biological indicator: a recall is open.').waitFor()
    await page.getByRole('navigation', { name: 'Plan of the unit' }).getByText('1 open recall').waitFor()
    /* oxlint-enable no-await-in-loop */
  }
  await reader.page.getByRole('alert').getByRole('button', { name: 'Acknowledge' }).click()
  await reader.page.getByRole('region', { name: 'Alarms' }).waitFor({ state: 'detached' })
  assert.equal(await third.page.getByRole('region', { name: 'Alarms' }).isVisible(), true)
  await third.page.getByRole('alert').getByRole('link', { name: 'Look' }).click()
  await third.page.getByRole('heading', { level: 1, name: 'Recall north-1' }).waitFor()
  for (const screen of [writer, reader, third]) noTroubles(screen)
})

test('an entry whose answer is lost is sent again with the same id and kept once', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await workAs(page, 'Nora Castellanos')
  await goTo(page, 'Unit')
  await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
  const tries: { id: string; status: number }[] = []
  await page.route('**/api/entries', async (route) => {
    const { id } = route.request().postDataJSON() as { id: string }
    const answer = await route.fetch()
    tries.push({ id, status: answer.status() })
    // The service has kept it; the way back is cut.
    await (tries.length === 1 ? route.abort('connectionreset') : route.fulfill({ response: answer }))
  })
  await registerPerson(page, 'Sam Idris')
  await page.getByRole('button', { name: '1 entry not sent yet' }).click()
  const outbox = page.getByRole('dialog', { name: 'Not sent yet' })
  await outbox.getByText('Person registered').waitFor()
  await outbox.getByRole('button', { name: 'Send again now' }).click()
  await page.getByRole('button', { name: '1 entry not sent yet' }).waitFor({ state: 'detached' })
  assert.deepEqual(
    tries.map(({ status }) => status),
    [201, 200],
  )
  assert.equal(tries[0]?.id, tries[1]?.id)
  assert.equal(await countOf(service, 'person:sam-idris'), 1)
})

test('what is entered while the service is down stays on the screen and is sent by itself when it is back', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-restart-'))
  try {
    const before = await runService({ folder, screens: builtScreens })
    await openUnit(before)
    await using screen = await openScreen(browser, before.url)
    const { page } = screen
    await workAs(page, 'Nora Castellanos')
    await goTo(page, 'Unit')
    await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
    await page.getByRole('form', { name: 'Register a person' }).waitFor()
    const port = new URL(before.url).port
    await before.close()

    for (const [name, waiting] of [
      ['Sam Idris', '1 entry not sent yet'],
      ['Vera Lindt', '2 entries not sent yet'],
    ] as const) {
      // oxlint-disable-next-line no-await-in-loop
      await registerPerson(page, name)
      // oxlint-disable-next-line no-await-in-loop
      await page.getByRole('button', { name: waiting }).waitFor()
      // oxlint-disable-next-line no-await-in-loop
      await isReadyAgain(page)
    }

    await using again = await runService({ folder, screens: builtScreens, environment: { PORT: port } })
    await page.getByRole('button', { name: /not sent yet$/ }).waitFor({ state: 'detached' })
    for (const person of ['person:sam-idris', 'person:vera-lindt'] as const) {
      // oxlint-disable-next-line no-await-in-loop
      await until(
        `${person} is kept once`,
        () => countOf(again, person),
        (count) => count === 1,
      )
    }
    // The page has found its way back: it follows the record again.
    await goTo(page, 'Unit')
    await record(again, 'person-registered', { person: 'person:late', name: 'Petra Late', roles: ['theatre'] })
    await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Petra Late' }).waitFor()
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})
