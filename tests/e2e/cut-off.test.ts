import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { KeptEntry } from '#road/entry.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { EntriesPage, MeAnswer } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { CookieBrowser } from '../support/browser-cookies.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { NetworkLine } from '../support/network-line.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { isInstalled, openScreen, phone, type Screen, tablet, until } from '../support/screen.ts'
import { passphraseOf, pinOf } from '../support/signed-unit.ts'
import { UnitClock } from '../support/unit-clock.ts'

/*
 * Two enrolled tablets work on for a day without network, and then come back. Hours pass at once, on the clock that the
 * service and its screens share; the entries are made by hand, in the forms.
 */

const nurses = ['Nora', 'Sam'] as const
type Nurse = (typeof nurses)[number]
const entriesEach = 100
const minutesBetween = 14.2

const clock = new UnitClock('2026-03-02T06:00:00.000Z')
let browser: Browser
let service: RunningService
/** One line for each tablet. */
const lines = new Map<Nurse, NetworkLine>()
const screens = new Map<Nurse, Screen>()

before(async () => {
  browser = await openBrowser()
  service = await runService({
    screens: builtScreens,
    now: clock.now,
    environment: { NILGROWTH_SIGN_IN: 'required' },
  })
  await openUnit()
  for (const nurse of nurses) {
    /* oxlint-disable no-await-in-loop: one tablet after the other */
    const size = nurse === 'Nora' ? tablet : phone
    const line = await NetworkLine.to(service.url)
    lines.set(nurse, line)
    const screen = await openScreen(browser, line.url, { at: clock.milliseconds(), size, installed: true })
    await enrol(screen, nurse)
    screens.set(nurse, screen)
    /* oxlint-enable no-await-in-loop */
  }
})

after(async () => {
  await browser.close()
  for (const line of lines.values()) await line[Symbol.asyncDispose]()
  await service.close()
})

async function openUnit(): Promise<void> {
  const manager = new CookieBrowser(service.url)
  const printed = service.log.find((line) => line.includes('one-time code')) ?? ''
  const code = printed.split(' ').at(-1)
  const passphrase = passphraseOf('Mira')
  const choice = { choice: 'empty', name: 'Invented day unit', timeZone: 'UTC', manager: 'Mira', code, passphrase }
  assert.equal((await manager.ask('POST', '/api/unit', choice)).status, 202)
  const signedIn = await manager.ask('POST', '/api/sign-in', { by: 'passphrase', name: 'Mira', passphrase })
  assert.equal(signedIn.status, 200)
  const proving = { by: 'passphrase', name: 'Mira', passphrase }
  const recordAt = async <K extends KindName>(
    at: CookieBrowser,
    by: string,
    kind: K,
    body: Bodies[K],
  ): Promise<void> => {
    const id = v7({ msecs: clock.milliseconds() })
    if (kind === 'limit-changed') {
      const signed = await manager.ask('POST', '/api/signatures', { entry: id, as: 'author', proving })
      assert.equal(signed.status, 200)
    }
    const happenedAt = clock.now()
    const entry = { id, site: 'unit', kind, happenedAt, by, workstation: 'Desk', body }
    const answer = await at.ask('POST', '/api/entries', entry)
    assert.equal(answer.status, 201, JSON.stringify(answer.body))
  }
  const record = <K extends KindName>(kind: K, body: Bodies[K]) => recordAt(manager, 'person:mira', kind, body)
  // A session as long as the day that is tried here.
  await record('limit-changed', {
    policy: 'policy:unit',
    limit: 'session-hours',
    value: 24,
    reason: 'A day without network is tried',
  })
  // The nurses do something every quarter of an hour, however slowly the test does it.
  await record('limit-changed', {
    policy: 'policy:unit',
    limit: 'idle-minutes',
    value: 30,
    reason: 'A slow day is tried',
  })
  const form = { lumens: [], parts: 1, insulated: false, optic: false, singleUse: false }
  const steam = { contact: 'critical', steam: 'allowed' } as const
  await record('device-registered', { device: 'device:forceps', name: 'Forceps', ...steam, ...form })
  const countSheet = [{ device: 'device:forceps', count: 1 }] as const
  await record('set-registered', { set: 'set:lap', name: 'Lap set', countSheet: [...countSheet] })
  for (const nurse of nurses) {
    /* oxlint-disable no-await-in-loop: one person after the other */
    const person = personOf(nurse)
    await record('person-registered', { person, name: nurse, roles: ['theatre', 'reprocessing', 'surgeonInCharge'] })
    const given = await manager.ask('POST', `/api/accounts/${person}/code`)
    const own = new CookieBrowser(service.url)
    const first = { by: 'code', code: (given.body as { code: string }).code, passphrase: passphraseOf(nurse) }
    assert.equal((await own.ask('POST', '/api/sign-in', first)).status, 200)
    const secrets = { current: passphraseOf(nurse), pin: pinOf, badge: `B-${nurse}` }
    assert.equal((await own.ask('POST', '/api/me/secrets', secrets)).status, 200)
    if (nurse === 'Nora')
      await recordAt(own, person, 'reprocessing-started', { round: 'round:lap-1', set: 'set:lap', because: 'newSet' })
    await recordAt(own, person, 'case-booked', {
      case: caseOf(nurse),
      patient: `P-${nurse}`,
      procedure: 'Laparoscopic repair',
      theatre: 'Theatre 1',
      plannedAt: clock.now(),
      surgeon: person,
      implantPlanned: false,
    })
    /* oxlint-enable no-await-in-loop */
  }
}

const personOf = (nurse: Nurse): `person:${string}` => `person:${nurse.toLowerCase()}`
const caseOf = (nurse: Nurse): `case:${string}` => `case:of-${nurse.toLowerCase()}`

/** The manager enrols this browser; then the nurse signs in there by badge and PIN. */
async function enrol({ context, page }: Screen, nurse: Nurse): Promise<void> {
  const manager = { by: 'passphrase', name: 'Mira', passphrase: passphraseOf('Mira') }
  assert.equal((await context.request.post('/api/sign-in', { data: manager })).status(), 200)
  assert.equal((await context.request.post('/api/devices', { data: { name: `Tablet of ${nurse}` } })).status(), 200)
  await context.request.post('/api/sign-out', { data: {} })
  await page.reload()
  await signIn(page, nurse)
  await isInstalled(page)
}

async function signIn(page: Page, nurse: Nurse): Promise<void> {
  const door = page.getByRole('dialog', { name: 'Sign in' })
  await door.getByLabel('Badge').fill(`B-${nurse}`)
  await door.getByLabel('PIN').fill(pinOf)
  await door.getByRole('button', { name: 'Sign in', exact: true }).click()
  await door.waitFor({ state: 'detached' })
}

function pageOf(nurse: Nurse): Page {
  return (screens.get(nurse) ?? assert.fail('both tablets are open')).page
}

const pages = (): readonly Page[] => nurses.map(pageOf)
const readingForm = (page: Page) => page.getByRole('form', { name: 'Record a reading' })
const unsent = (page: Page, count: number) => page.getByRole('button', { name: `${count} entries not sent yet` })
const banner = (page: Page) => page.getByRole('status').filter({ hasText: /^As known at .* no network\./ })

/** The reading that tells an entry from the others: its number, in twentieths of a degree, all within what a store may have. */
const celsiusOf = (place: number): number => 18 + place / 20

async function openReadings(page: Page): Promise<void> {
  await page.goto('/shelf')
  await page.getByText('Record a reading', { exact: true }).first().click()
  await readingForm(page).getByLabel('Where').fill('Store')
  await readingForm(page).getByLabel('Relative humidity, %').fill('45')
}

let halted = false
function step(name: string, walk: () => Promise<void>): void {
  test(name, async (t) => {
    if (halted) return t.skip('the walk ended before')
    halted = true
    await walk()
    halted = false
  })
}

step('cut off, the program opens anew, says how old what it shows is, and lets the nurse go on', async () => {
  for (const nurse of nurses) {
    /* oxlint-disable no-await-in-loop: one tablet after the other */
    const page = pageOf(nurse)
    await page.goto(`/theatre/of-${nurse.toLowerCase()}`)
    await page.getByLabel('Pack', { exact: true }).waitFor()
    await until(
      'the case is kept at the tablet',
      () => keptIn(page),
      (kept) => kept.includes('subject'),
    )
    await page.goto('/shelf')
    await page.getByText('Never measured on this record.').waitFor()
    /* oxlint-enable no-await-in-loop */
  }
  for (const line of lines.values()) line.cut()
  await clock.passes(10, ...pages())
  for (const page of pages()) {
    /* oxlint-disable no-await-in-loop */
    await page.reload()
    await banner(page).waitFor()
    assert.match(await banner(page).innerText(), /^As known at 06:\d\d, \d+ min ago, no network\./)
    await page.getByRole('heading', { level: 1, name: 'Shelf' }).waitFor()
    assert.deepEqual([await violationsOf(page), await sticksOut(page)], [[], []])
    /* oxlint-enable no-await-in-loop */
  }
})

step(
  'each opens the same pack for a case of their own; nobody can be asked, and no page calls that a pass',
  async () => {
    for (const nurse of nurses) {
      /* oxlint-disable no-await-in-loop */
      const page = pageOf(nurse)
      await page.goto(`/theatre/of-${nurse.toLowerCase()}`)
      await page.getByLabel('Pack', { exact: true }).fill('lap-1')
      await page.getByRole('button', { name: 'Find pack' }).click()
      const hand = page.getByRole('form', { name: 'In hand: Lap set' })
      await hand.getByText('This is not a pass.').waitFor()
      assert.equal(await hand.getByText('No rule stands against this.').count(), 0)
      await hand.getByRole('button', { name: /open/i }).click()
      await page.getByRole('button', { name: '1 entry not sent yet' }).waitFor()
      /* oxlint-enable no-await-in-loop */
    }
  },
)

step(`for 24 hours ${entriesEach} readings are entered at each`, async () => {
  for (const page of pages()) await openReadings(page)
  for (let place = 1; place <= entriesEach; place += 1) {
    /* oxlint-disable no-await-in-loop: one entry after the other */
    await clock.passes(minutesBetween, ...pages())
    await Promise.all(
      pages().map(async (page) => {
        const field = readingForm(page).getByLabel('Temperature, °C')
        await field.fill(String(celsiusOf(place)))
        await field.press('Enter')
        await unsent(page, place + 1).waitFor()
      }),
    )
    /* oxlint-enable no-await-in-loop */
  }
  for (const page of pages())
    assert.match(await banner(page).innerText(), /^As known at 2 Mar, 06:\d\d, 23 h ago, no network\./)
})

step(
  'the session is over after its hours: the door closes by itself, and what was kept for the nurse is gone',
  async () => {
    await clock.passes(14.9, ...pages())
    await clock.passes(10, ...pages())
    for (const page of pages()) {
      /* oxlint-disable no-await-in-loop */
      const door = page.getByRole('dialog', { name: 'Sign in' })
      await door.getByText('No network: nobody’s PIN or passphrase can be checked now.').waitFor()
      assert.deepEqual(await keptIn(page), ['me', 'unit'])
      assert.deepEqual([await violationsOf(page), await sticksOut(page)], [[], []])
      /* oxlint-enable no-await-in-loop */
    }
  },
)

step('joined again nothing is lost, nothing doubled, the order stands, and the conflict shows at both', async () => {
  for (const line of lines.values()) line.join()
  for (const nurse of nurses) {
    /* oxlint-disable no-await-in-loop */
    await signIn(pageOf(nurse), nurse)
    await unsent(pageOf(nurse), entriesEach + 1).waitFor({ state: 'detached' })
    await pageOf(nurse)
      .getByRole('button', { name: /not sent yet/ })
      .waitFor({ state: 'detached' })
    /* oxlint-enable no-await-in-loop */
  }
  const kept = await entriesOf(pageOf('Nora'))
  for (const nurse of nurses) {
    const readings = kept.filter(({ by, kind }) => by === personOf(nurse) && kind === 'storage-measured')
    const places = Array.from({ length: entriesEach }, (_, index) => celsiusOf(index + 1))
    assert.deepEqual(
      readings.map(({ body }) => body['temperatureC']),
      places,
      'every reading once, in the order in which it was entered',
    )
    assert.equal(new Set(readings.map(({ id }) => id)).size, entriesEach)
    const gaps = readings.slice(1).map((entry, index) => minutesFrom(readings[index], entry))
    assert.ok(
      gaps.every((gap) => gap >= minutesBetween && gap < minutesBetween + 1),
      `each at the time of the act: ${gaps.join(', ')}`,
    )
  }
  const opened = kept.filter(({ kind }) => kind === 'pack-opened')
  assert.equal(opened.length, 2)
  const doubled = opened.filter(({ judgement }) => judgement.findings.some(({ rule }) => rule === 'opened-once'))
  assert.deepEqual(
    doubled.map(({ seq }) => seq),
    [opened[1]?.seq],
    'the one that came second',
  )
  for (const page of pages()) {
    // oxlint-disable-next-line no-await-in-loop
    await page
      .getByRole('region', { name: 'Alarms' })
      .getByText(/was opened for case of-nora already/)
      .waitFor()
  }
  const sam = pageOf('Sam')
  await sam.getByRole('button', { name: 'findings on 1 sent later' }).click()
  const outbox = sam.getByRole('dialog', { name: 'Not sent yet' })
  await outbox.getByText(/^Stop\. .*was opened for case of-nora already/).waitFor()
  await outbox.getByRole('button', { name: 'I have read it' }).first().click()
  await outbox.getByText('Nothing waits here.').waitFor()
  await banner(sam).waitFor({ state: 'detached' })
  assert.deepEqual(
    service.log.filter((line) => !line.includes('one-time code')),
    [],
  )
})

step('who leaves while there is no network leaves nothing behind, and is signed out when it is back', async () => {
  const { context, page } = screens.get('Nora') ?? assert.fail('a tablet')
  await page.reload()
  await page.getByRole('heading', { level: 1 }).waitFor()
  lines.get('Nora')?.cut()
  await page.getByRole('button', { name: 'Working: Nora. Change' }).click()
  await page.getByRole('button', { name: 'Change person' }).click()
  await page.getByRole('dialog', { name: 'Sign in' }).waitFor()
  assert.deepEqual(await keptIn(page), ['me', 'unit'])
  await page.reload()
  await page.getByRole('dialog', { name: 'Sign in' }).waitFor()
  assert.equal(await page.getByRole('heading', { level: 1, name: 'Round' }).count(), 0)
  lines.get('Nora')?.join()
  await page.reload()
  await page.getByRole('dialog', { name: 'Sign in' }).waitFor()
  const me = (await (await context.request.get('/api/me')).json()) as MeAnswer
  assert.equal(me.person, null)
})

function minutesFrom(before: KeptEntry | undefined, entry: KeptEntry): number {
  return (Date.parse(entry.happenedAt) - Date.parse(before?.happenedAt ?? '')) / 60_000
}

async function entriesOf(page: Page): Promise<readonly KeptEntry[]> {
  const answer = await page.context().request.get('/api/entries?limit=1000')
  return ((await answer.json()) as EntriesPage).entries
}

/** What answers this browser still keeps, by what was asked. */
async function keptIn(page: Page): Promise<readonly string[]> {
  const keys = await page.evaluate<readonly string[]>(`new Promise((resolve, reject) => {
    const opening = indexedDB.open('nilgrowth')
    opening.onerror = () => reject(opening.error)
    opening.onsuccess = () => {
      const all = opening.result.transaction('answers').objectStore('answers').getAll()
      all.onsuccess = () => resolve(all.result.map((kept) => kept.key[0]))
    }
  })`)
  return [...new Set(keys)].sort()
}
