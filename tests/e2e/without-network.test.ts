import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { SentEntry } from '#road/entry.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { EntriesPage } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { NetworkLine } from '../support/network-line.ts'
import { picturesIn } from '../support/pictures.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { goTo, openScreen, type Screen, until, workAs } from '../support/screen.ts'
import { passphraseOf } from '../support/signed-unit.ts'
import { UnitClock } from '../support/unit-clock.ts'

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

const look = picturesIn(process.env['OUTBOX_PICTURES'])
const manager = 'person:nora-castellanos'

async function openUnit(service: RunningService): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
}

async function record<K extends KindName>(
  service: RunningService,
  happenedAt: string,
  kind: K,
  body: Bodies[K],
): Promise<void> {
  const entry = { id: v7(), site: 'unit', kind, happenedAt, by: manager, workstation: 'Desk', body }
  const { status, body: answer } = await service.ask('POST', '/api/entries', entry)
  assert.equal(status, 201, JSON.stringify(answer))
}

async function registerPerson(page: Page, name: string): Promise<void> {
  const form = page.getByRole('form', { name: 'Register a person' })
  await form.getByRole('textbox', { name: 'Name' }).fill(name)
  await form.getByRole('checkbox', { name: 'Theatre', exact: true }).check()
  await form.getByRole('button', { name: 'Register a person' }).click()
}

async function peopleOn(service: RunningService): Promise<readonly unknown[]> {
  const { entries } = (await service.ask('GET', '/api/entries?limit=1000')).body as EntriesPage
  return entries.flatMap(({ kind, body }) => (kind === 'person-registered' ? [body['person']] : []))
}

test('two pages send each entry once; what is refused stays with its reason until it is corrected or taken out', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  await using line = await NetworkLine.to(service.url)
  await using one = await openScreen(browser, line.url)
  const { page } = one
  await workAs(page, 'Nora Castellanos')
  await goTo(page, 'Unit')
  await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
  await page.getByRole('form', { name: 'Register a person' }).waitFor()
  await using other = await openScreen(browser, line.url, { beside: one })
  await other.page.getByRole('heading', { level: 1, name: 'Round' }).waitFor()
  line.cut()
  const names = ['Ada Alm', 'Bo Berg', 'Cy Dahl', 'Di Ek']
  for (const [index, name] of names.entries()) {
    /* oxlint-disable no-await-in-loop: one after the other */
    await registerPerson(page, name)
    await page.getByRole('button', { name: new RegExp(`^${index + 1} entr`) }).waitFor()
    await until(
      'the form is empty again',
      () => page.getByRole('form', { name: 'Register a person' }).getByRole('textbox', { name: 'Name' }).inputValue(),
      (typed) => typed === '',
    )
    /* oxlint-enable no-await-in-loop */
  }
  await other.page.getByRole('button', { name: '4 entries not sent yet' }).waitFor()
  await look(page, 'cut-off')
  // Meanwhile two of these keys are taken at the desk.
  for (const key of ['bo-berg', 'cy-dahl'] as const) {
    // oxlint-disable-next-line no-await-in-loop
    await record(service, new Date().toISOString(), 'person-registered', {
      person: `person:${key}`,
      name: `Desk ${key}`,
      roles: ['theatre'],
    })
  }
  const sent: string[] = []
  for (const each of [page, other.page]) {
    each.on('response', (response) => {
      const request = response.request()
      if (request.method() === 'POST' && response.url().endsWith('/api/entries'))
        sent.push((request.postDataJSON() as { id: string }).id)
    })
  }
  line.join()
  await page.getByRole('button', { name: '2 entries not sent yet, 2 refused' }).click()
  assert.equal(new Set(sent).size, sent.length, 'no entry was sent by both pages')
  assert.equal(sent.length, names.length)
  const outbox = page.getByRole('dialog', { name: 'Not sent yet' })
  const [first, second] = [0, 1].map((place) => outbox.getByRole('article').nth(place))
  assert.ok(first !== undefined && second !== undefined)
  await second.getByText('Take out', { exact: true }).first().click()
  await look(page, 'refused')
  await second.getByLabel('Why it is taken out').fill('The desk has registered her')
  await second.getByRole('button', { name: 'Take out' }).click()
  await second.waitFor({ state: 'detached' })
  await first.getByText('Correct it', { exact: true }).click()
  await look(page, 'correct')
  await first.getByLabel('person', { exact: true }).fill('person:bo-berg-2')
  await first.getByRole('button', { name: 'Send anew' }).click()
  await outbox.getByText('Nothing waits here.').waitFor()
  await outbox.getByText('Taken out at this screen').click()
  await outbox.getByText(/The desk has registered her/).waitFor()
  await look(page, 'taken-out')
  const people = await peopleOn(service)
  const expected = ['ada-alm', 'bo-berg', 'bo-berg-2', 'cy-dahl', 'di-ek'].map((key) => `person:${key}`)
  assert.deepEqual(new Set(people), new Set([...expected, manager]))
  assert.equal(people.length, expected.length + 1)
  assert.deepEqual(service.log, [])
})

/** The two ways in which a browser keeps nothing: its disk is full, or it was told so. */
const keepsNothing = {
  async 'has no room left'({ context, page }: Screen) {
    const browserItself = await context.newCDPSession(page)
    const { origin } = new URL(page.url())
    // None at all would mean that there is no limit.
    await browserItself.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 })
  },
  async 'is not allowed to keep anything'({ page }: Screen) {
    await page.addInitScript(
      "Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('denied', 'SecurityError') } })",
    )
    await page.reload()
  },
}

for (const [how, comesAbout] of Object.entries(keepsNothing))
  test(`where the browser ${how}, the form says that the entry is not kept and holds what was typed`, async () => {
    await using service = await runService({ screens: builtScreens })
    await openUnit(service)
    await using line = await NetworkLine.to(service.url)
    await using screen = await openScreen(browser, line.url)
    const { page } = screen
    await comesAbout(screen)
    await workAs(page, 'Nora Castellanos')
    await goTo(page, 'Unit')
    await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
    const form = page.getByRole('form', { name: 'Register a person' })
    const name = form.getByRole('textbox', { name: 'Name' })
    await name.waitFor()
    line.cut()
    await registerPerson(page, 'Ada Alm')
    await form
      .getByRole('alert')
      .getByText(/It is not kept\./)
      .waitFor()
    await page
      .getByRole('status')
      .getByText(/^What you enter is not kept here/)
      .waitFor()
    assert.equal(await name.inputValue(), 'Ada Alm')
    assert.equal(await form.getByRole('checkbox', { name: 'Theatre', exact: true }).isChecked(), true)
    assert.equal(await page.getByRole('button', { name: /not sent yet/ }).count(), 0)
    line.join()
    await page
      .getByRole('status')
      .getByText(/^What you enter is not kept here/)
      .waitFor({ state: 'detached' })
    await form.getByRole('button', { name: 'Register a person' }).click()
    await until(
      'the form is empty again',
      () => name.inputValue(),
      (typed) => typed === '',
    )
    assert.deepEqual(await peopleOn(service), [manager, 'person:ada-alm'])
  })

test('a decision is not offered without the record, and does not wait when its answer is lost', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  await using line = await NetworkLine.to(service.url)
  await using screen = await openScreen(browser, line.url)
  const { page } = screen
  await workAs(page, 'Nora Castellanos')
  await goTo(page, 'Unit')
  await page.getByRole('region', { name: 'Limits', exact: true }).getByRole('heading').click()
  await page.getByRole('button', { name: 'Change: A person is signed out after this long' }).click()
  const form = page.getByRole('form', { name: 'Change the limit' })
  await form.getByLabel('New value').fill('20')
  await form.getByLabel('Reason').fill('Fifteen is too short here')
  await form.getByText('No rule stands against this.').waitFor()
  await page.route('**/api/entries', async (route) => {
    await route.fetch()
    // The service has kept it; the way back is cut.
    await route.abort('connectionreset')
  })
  await form.getByRole('button', { name: 'Change the limit' }).click()
  await form.getByText(/It does not wait and is not sent by itself/).waitFor()
  assert.equal(await page.getByRole('button', { name: /not sent yet/ }).count(), 0)
  // One lost answer looks like no network, until the service is heard again.
  await form.getByText(/^Not without the network/).waitFor({ state: 'detached' })
  line.cut()
  // An answer that was under way may still be heard; after that nothing comes through, and the form stays as it is.
  const bars = form.getByText(/^Not without the network\. A limit binds every screen/)
  await until(
    'the form bars the decision and shows no pass',
    async () => [
      await bars.count(),
      await form.getByRole('button', { name: 'Change the limit', disabled: true }).count(),
      await form.getByText('No rule stands against this.').count(),
    ],
    ([says, disabled, passes]) => says === 1 && disabled === 1 && passes === 0,
  )
  await page.unroute('**/api/entries')
  line.join()
  await form.getByText(/^Not without the network/).waitFor({ state: 'detached' })
  // The same decision, by its id: it is kept once.
  await form.getByRole('button', { name: 'Change the limit' }).click()
  await form.waitFor({ state: 'detached' })
  const { entries } = (await service.ask('GET', '/api/entries?limit=1000')).body as EntriesPage
  assert.equal(entries.filter(({ kind }) => kind === 'limit-changed').length, 1)
})

test('the clock of a bath goes on without network, also after the page is opened anew, and alarms', async () => {
  const clock = new UnitClock('2026-03-02T06:00:00.000Z')
  await using service = await runService({ screens: builtScreens, now: clock.now })
  await openUnit(service)
  const say = <K extends KindName>(kind: K, body: Bodies[K]) => record(service, clock.now(), kind, body)
  const form = { lumens: [], parts: 1, insulated: false, optic: true, singleUse: false }
  await say('device-registered', {
    device: 'device:scope',
    name: 'Telescope',
    contact: 'semiCritical',
    steam: 'barred',
    ...form,
  })
  await say('set-registered', { set: 'set:s', name: 'Scope set', countSheet: [{ device: 'device:scope', count: 1 }] })
  await say('reprocessing-started', { round: 'round:s-1', set: 'set:s', because: 'newSet' })
  await say('bath-poured', {
    bath: 'bath:b',
    product: 'ortho-phthalaldehyde-0.55',
    lot: 'lot:can',
    place: 'Wash room',
    litres: 8,
    activatedAt: clock.now(),
    expiresAt: '2026-12-01T00:00:00.000Z' as Bodies['bath-poured']['expiresAt'],
  })
  await say('immersion-started', {
    immersion: 'immersion:i',
    bath: 'bath:b',
    rounds: ['round:s-1'],
    claim: 'disinfect',
    how: 'manual',
    fullyImmersed: true,
    lumensFilled: true,
    cleanedAndDry: true,
    implant: false,
    mycobacteriaSuspected: false,
  })
  await using line = await NetworkLine.to(service.url)
  await using screen = await openScreen(browser, line.url, { at: clock.milliseconds(), installed: true })
  const { page } = screen
  const running = page.getByRole('list', { name: 'Clocks that run' })
  await running.getByText(/Contact/).waitFor()
  await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)')
  line.cut()
  await clock.passes(2, page)
  await page.reload()
  await page.getByText(/^As known at 06:0\d, .*no network\.$/).waitFor()
  await running.getByText(/Contact/).waitFor()
  await clock.passes(15, page)
  await page.getByRole('alert').getByText('Contact time over: take it out and rinse.').waitFor()
})

interface Sending {
  readonly id: string
  readonly status: number
  readonly at: number
  readonly waitSeconds: number
}

test('a queue that is more than is answered at once waits as it is told, and goes on in order', async () => {
  await using service = await runService({ screens: builtScreens, environment: { NILGROWTH_SIGN_IN: 'required' } })
  await using line = await NetworkLine.to(service.url)
  await using screen = await openScreen(browser, line.url)
  const { context, page } = screen
  await openSignedUnit(service, screen)
  await goTo(page, 'Unit')
  line.cut()
  await page
    .getByRole('status')
    .getByText(/no network\.$/)
    .waitFor()
  const queue = Array.from({ length: 200 }, (_, place) => deviceEntry(place))
  await fillOutbox(page, queue)
  await page.getByRole('button', { name: `${queue.length} entries not sent yet` }).waitFor()
  const sendings: Sending[] = []
  page.on('response', (response) => {
    const request = response.request()
    if (request.method() !== 'POST' || !response.url().endsWith('/api/entries')) return
    const { id } = request.postDataJSON() as { id: string }
    const waitSeconds = Number(response.headers()['retry-after'] ?? 0)
    sendings.push({ id, status: response.status(), at: Date.now(), waitSeconds })
  })
  line.join()
  // Meanwhile all that this session may ask is asked, as by many pages that are open again at once.
  await until(
    'it is too much',
    async () => {
      await askUntilTooMuch(context, service)
      return sendings.some(({ status }) => status === 429)
    },
    (was) => was,
  )
  await page.getByRole('button', { name: /not sent yet/ }).waitFor({ state: 'detached', timeout: 60_000 })
  const told = sendings.filter(({ status }) => status === 429)
  assert.ok(told.length > 0, 'it was too much at least once')
  for (const [place, { id, status, at, waitSeconds }] of sendings.entries()) {
    const next = sendings[place + 1]
    if (status !== 429 || next === undefined) continue
    assert.ok(waitSeconds >= 1)
    assert.ok(next.at - at >= waitSeconds * 1000 - 20, `waited ${next.at - at} ms, told ${waitSeconds} s`)
    assert.equal(next.id, id, 'the same goes first')
  }
  assert.deepEqual(
    sendings.filter(({ status }) => status !== 429).map(({ id, status }) => [id, status]),
    queue.map(({ id }) => [id, 201]),
  )
  const kept = await service.journal.read('unit' as never).entries({ afterSeq: 0, limit: 1000 })
  assert.deepEqual(
    kept.filter(({ kind }) => kind === 'device-registered').map(({ id }) => id),
    queue.map(({ id }) => id),
  )
})

/** A unit with sign-in; its manager is signed in at the screen. */
async function openSignedUnit(service: RunningService, { context, page }: Screen): Promise<void> {
  const printed = service.log.find((line) => line.includes('one-time code')) ?? ''
  const passphrase = passphraseOf('Mira')
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Mira' }
  const data = { ...choice, code: printed.split(' ').at(-1), passphrase }
  assert.equal((await context.request.post('/api/unit', { data })).status(), 202)
  const signedIn = await context.request.post('/api/sign-in', { data: { by: 'passphrase', name: 'Mira', passphrase } })
  assert.equal(signedIn.status(), 200)
  await page.reload()
  await page.getByRole('button', { name: 'Working: Mira. Change' }).waitFor()
}

function deviceEntry(place: number): SentEntry {
  const device = `device:clamp-${place}`
  const form = { lumens: [], parts: 1, insulated: false, optic: false, singleUse: false }
  return {
    id: v7() as SentEntry['id'],
    site: 'unit' as SentEntry['site'],
    kind: 'device-registered',
    happenedAt: new Date().toISOString() as SentEntry['happenedAt'],
    by: 'person:mira',
    workstation: 'Desk',
    body: { device, name: `Clamp ${place}`, contact: 'critical', steam: 'allowed', ...form },
  }
}

/** Writes down entries as the forms do. */
async function fillOutbox(page: Page, entries: readonly SentEntry[]): Promise<void> {
  const rows = entries.map((entry) => ({ entry, title: 'Device registered', tries: 0, standing: { at: 'toSend' } }))
  await page.evaluate(`new Promise((resolve, reject) => {
    const opening = indexedDB.open('nilgrowth')
    opening.onerror = () => reject(opening.error)
    opening.onsuccess = () => {
      const writing = opening.result.transaction('outbox', 'readwrite')
      for (const row of ${JSON.stringify(rows)}) writing.objectStore('outbox').add(row)
      writing.onabort = () => reject(writing.error)
      writing.oncomplete = () => {
        new BroadcastChannel('nilgrowth.outbox').postMessage('changed')
        resolve()
      }
    }
  })`)
}

async function askUntilTooMuch(context: BrowserContext, service: RunningService): Promise<void> {
  const cookies = await context.cookies(service.url)
  const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
  const asked = async () => (await fetch(`${service.url}/api/me`, { headers: { cookie } })).status
  for (let times = 0; times < 100; times += 1) {
    // oxlint-disable-next-line no-await-in-loop: some at a time, until it is too much
    const answers = await Promise.all(Array.from({ length: 20 }, asked))
    if (answers.includes(429)) return
  }
  assert.fail('it is never too much')
}
