import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { CookieBrowser } from '../support/browser-cookies.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { goTo, openScreen, phone, type Screen } from '../support/screen.ts'
import { passphraseOf, pinOf } from '../support/signed-unit.ts'
import { UnitClock } from '../support/unit-clock.ts'

/* A unit of its own with sign-in, at a tablet and beside it; each test goes on where the one before ended. */

const clock = new UnitClock('2026-03-02T06:00:00.000Z')
let browser: Browser
let service: RunningService
let tablet: Screen
let code = ''

before(async () => {
  browser = await openBrowser()
  service = await runService({
    screens: builtScreens,
    now: clock.now,
    environment: { NILGROWTH_SIGN_IN: 'required' },
  })
  tablet = await openScreen(browser, service.url, { at: clock.milliseconds() })
})
after(async () => {
  await browser.close()
  await service.close()
})

let halted = false
function step(name: string, walk: () => Promise<void>): void {
  test(name, async (t) => {
    if (halted) return t.skip('the walk ended before')
    halted = true
    await walk()
    halted = false
  })
}

/** The closed door. */
const doorOf = (page: Page) => page.getByRole('dialog', { name: 'Sign in' })
const formOf = (page: Page, name: string) => page.getByRole('form', { name, exact: true })

async function signInByPassphrase(page: Page, name: string): Promise<void> {
  const door = doorOf(page)
  await door.getByLabel('Name', { exact: true }).fill(name)
  await door.getByLabel('Passphrase', { exact: true }).fill(passphraseOf(name))
  await door.getByRole('button', { name: 'Sign in', exact: true }).click()
  await door.waitFor({ state: 'detached' })
}

step('the first manager sets the unit up with the code of the console, and is signed in', async () => {
  const { page } = tablet
  const printed =
    service.log
      .find((line) => line.includes('one-time code'))
      ?.split(' ')
      .at(-1) ?? ''
  const form = formOf(page, 'Set up my unit')
  await form.getByLabel('Name of the unit').fill('Invented day unit')
  await form.getByLabel('Manager’s name').fill('Mira')
  await form.getByLabel('One-time code').fill(printed.toLowerCase())
  await form.getByLabel('Manager’s passphrase').fill(passphraseOf('Mira'))
  await form.getByLabel('The same once more').fill('something else')
  await form.getByRole('button', { name: 'Set up my unit' }).click()
  await form.getByText('The two are not the same.').waitFor()
  await form.getByLabel('The same once more').fill(passphraseOf('Mira'))
  await form.getByRole('button', { name: 'Set up my unit' }).click()
  await page.getByRole('button', { name: 'Working: Mira. Change' }).waitFor()
  await doorOf(page).waitFor({ state: 'detached' })
})

step('the manager registers a nurse, gives her a code, and enrols the tablet', async () => {
  const { page } = tablet
  await goTo(page, 'Unit')
  await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
  await page.getByLabel('Name', { exact: true }).fill('Nora')
  await page.getByLabel('Theatre', { exact: true }).check()
  await page.getByRole('button', { name: 'Register a person' }).click()
  await page.getByRole('status').filter({ hasText: 'Recorded. ' }).waitFor()
  await goTo(page, 'Unit')
  await page.getByRole('button', { name: 'Give a one-time code: Nora' }).click()
  const given = page.getByRole('status').filter({ hasText: 'One-time code for Nora' })
  code = (await given.locator('strong').innerText()).trim()
  assert.match(code, /^[A-Z0-9]{4}(?:-[A-Z0-9]{4}){3}$/)
  // Her own account is asked about first, and as the only manager's it stays.
  await page.getByRole('button', { name: 'Close the account: Mira' }).click()
  const asks = page.getByRole('dialog', { name: 'Close the account' })
  assert.deepEqual(await violationsOf(page), [])
  await asks.getByRole('button', { name: 'Close the account of Mira' }).click()
  await page.getByRole('alert').filter({ hasText: 'Nobody else could manage who may sign in' }).waitFor()
  await page.getByLabel('Name of this tablet').fill('Wash room')
  await page.getByRole('button', { name: 'Enrol this browser' }).click()
  await page.getByRole('button', { name: 'End it: Wash room' }).waitFor()
  await page.getByRole('button', { name: 'Show the log' }).click()
  await page.getByRole('cell', { name: 'enrolled a tablet' }).waitFor()
  assert.deepEqual(await violationsOf(page), [])
})

step('the nurse begins on her phone with the code, and sets a PIN and her badge', async () => {
  const screen = await openScreen(browser, service.url, { size: phone, at: clock.milliseconds() })
  const { page } = screen
  const door = doorOf(page)
  await door.waitFor()
  assert.deepEqual([await violationsOf(page), await sticksOut(page)], [[], []])
  await door.getByRole('button', { name: 'I have a one-time code' }).click()
  await door.getByLabel('One-time code').fill(code)
  await door.getByLabel('Your new passphrase').fill(passphraseOf('Nora'))
  await door.getByRole('button', { name: 'Choose it and begin' }).click()
  await door.waitFor({ state: 'detached' })
  await page.getByRole('button', { name: 'Working: Nora. Change' }).click()
  const own = page.getByRole('dialog', { name: 'Signed in: Nora' })
  await own.getByText('My PIN, badge and passphrase').click()
  for (const [what, field, value] of [
    ['PIN', 'New PIN', pinOf],
    ['Badge', 'My badge', 'B-0042'],
  ] as const) {
    await own.getByRole('radio', { name: what, exact: true }).check()
    await own.getByLabel(field).fill(value)
    await own.getByLabel('My passphrase as it is now').fill(passphraseOf('Nora'))
    await own.getByRole('button', { name: 'Keep it' }).click()
    await own.getByText('Kept.').waitFor()
  }
  await screen.context.close()
})

step('at the tablet the person changes by badge and PIN; what is not her task is said, and closed', async () => {
  const { page } = tablet
  await page.getByRole('button', { name: 'Working: Mira. Change' }).click()
  await page.getByRole('button', { name: 'Change person' }).click()
  const door = doorOf(page)
  await door.getByText('This tablet: Wash room').waitFor()
  assert.deepEqual(await violationsOf(page), [])
  await door.getByLabel('Badge').fill('B-0042')
  await door.getByLabel('PIN').fill('999999')
  await door.getByRole('button', { name: 'Sign in', exact: true }).click()
  await door.getByRole('alert').filter({ hasText: 'That is not right' }).waitFor()
  await door.getByLabel('PIN').fill(pinOf)
  await door.getByRole('button', { name: 'Sign in', exact: true }).click()
  await page.getByRole('button', { name: 'Working: Nora. Change' }).waitFor()
  await goTo(page, 'Unit')
  assert.equal(await page.getByRole('heading', { name: 'Who may sign in' }).count(), 0)
  await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
  await page.getByText('This is not among the tasks of your roles.').waitFor()
  assert.equal(await page.getByRole('button', { name: 'Register a person' }).isDisabled(), true)
})

step('when nothing is done the door closes; what was filled in is there when the same person comes back', async () => {
  const { page } = tablet
  await page.getByLabel('Name', { exact: true }).fill('half a name')
  await clock.passes(16, page)
  const door = doorOf(page)
  await door.getByText('The page is as you left it.').waitFor()
  await door.getByLabel('Badge').fill('B-0042')
  await door.getByLabel('PIN').fill(pinOf)
  await door.getByRole('button', { name: 'Sign in', exact: true }).click()
  await door.waitFor({ state: 'detached' })
  assert.equal(await page.getByLabel('Name', { exact: true }).inputValue(), 'half a name')
  await page.getByRole('button', { name: 'Working: Nora. Change' }).click()
  await page.getByRole('button', { name: 'Change person' }).click()
  await door.getByRole('button', { name: 'By name and passphrase' }).click()
  await signInByPassphrase(page, 'Mira')
  // Another person finds the first page, not the half-filled form.
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor()
})

/** They are folded when the page is come to, and stay open on it. */
async function openLimits(page: Page): Promise<void> {
  const limits = page.getByRole('region', { name: 'Limits', exact: true })
  if ((await limits.getByRole('table').count()) === 0) await limits.getByRole('heading').click()
  await limits.getByRole('table').waitFor()
}

step(
  'the change of a limit is signed by the manager; nobody else could confirm it, and the record says so',
  async () => {
    const { page } = tablet
    await goTo(page, 'Unit')
    await openLimits(page)
    const limit = 'A person is signed out after this long without doing anything'
    await page.getByRole('button', { name: `Change: ${limit}` }).click()
    const form = page.getByRole('form', { name: 'Change the limit' })
    await form.getByLabel('New value').fill('20')
    await form.getByLabel('Reason').fill('Fifteen is too short here')
    await form.getByRole('button', { name: 'Change the limit' }).click()
    const dialog = page.getByRole('dialog', { name: 'Sign it' })
    await dialog.getByLabel('Passphrase of Mira').fill(passphraseOf('Mira'))
    assert.deepEqual(await violationsOf(page), [])
    await dialog.getByLabel('Nobody else here may confirm this').check()
    await dialog.getByRole('button', { name: 'Sign and send' }).click()
    await dialog.waitFor({ state: 'detached' })
    const { body } = await service.ask('GET', '/api/policy')
    assert.equal((body as { status?: number }).status, 401, 'nobody reads it without signing in')
    const [entry] = (await service.journal.read('unit' as never).entries({ afterSeq: 0, limit: 100 })).filter(
      ({ kind }) => kind === 'limit-changed',
    )
    assert.deepEqual(
      entry?.signed?.map(({ person, as, alone }) => [person, as, alone === true]),
      [
        ['person:mira', 'author', false],
        ['person:mira', 'second', true],
      ],
    )
  },
)

step(
  'the manager makes a passkey, signs in by it, and signs by it; a page at another address cannot use it',
  async () => {
    const { page } = tablet
    const authenticator = await page.context().newCDPSession(page)
    await authenticator.send('WebAuthn.enable')
    const { authenticatorId } = await authenticator.send('WebAuthn.addVirtualAuthenticator', {
      options: {
        protocol: 'ctap2',
        transport: 'internal',
        hasResidentKey: true,
        hasUserVerification: true,
        isUserVerified: true,
        automaticPresenceSimulation: true,
      },
    })
    await page.getByRole('button', { name: 'Working: Mira. Change' }).click()
    const own = page.getByRole('dialog', { name: 'Signed in: Mira' })
    await own.getByText('My passkeys').click()
    const form = formOf(page, 'Make a passkey')
    await form.getByLabel('Name of the passkey').fill('Invented key')
    await form.getByLabel('My passphrase as it is now').fill('not the passphrase of Mira')
    await form.getByRole('button', { name: 'Make a passkey' }).click()
    await form.getByRole('alert').filter({ hasText: 'That is not right' }).waitFor()
    await form.getByLabel('My passphrase as it is now').fill(passphraseOf('Mira'))
    // The authenticator keeps the key that came to nothing: made anew under the same user, it takes the place of the other.
    await form.getByRole('button', { name: 'Make a passkey' }).click()
    await own.getByText('Invented key').waitFor()
    assert.deepEqual(await violationsOf(page), [])

    const elsewhere = new CookieBrowser(service.url)
    const proving = { by: 'passphrase', name: 'Mira', passphrase: passphraseOf('Mira') }
    assert.equal((await elsewhere.ask('POST', '/api/sign-in', proving)).status, 200)
    await own.getByText('Where I am signed in').click()
    const sessions = own.getByRole('form', { name: 'Where I am signed in' })
    await sessions.getByText('This screen').waitFor()
    await sessions.getByLabel('My passphrase as it is now').fill(passphraseOf('Mira'))
    assert.deepEqual(await violationsOf(page), [])
    await sessions.getByRole('button', { name: /^End it: A browser, since / }).click()
    await sessions.getByText('Nowhere else.').waitFor()
    await sessions.getByText('One session ended.').waitFor()
    assert.equal((await elsewhere.ask('GET', '/api/me/sessions')).status, 401)

    await own.getByRole('button', { name: 'Change person' }).click()
    const door = doorOf(page)
    await door.getByRole('button', { name: 'By passkey' }).click()
    await page.getByRole('button', { name: 'Working: Mira. Change' }).waitFor()
    await door.waitFor({ state: 'detached' })

    await goTo(page, 'Unit')
    await openLimits(page)
    await page.getByRole('button', { name: 'Change: It is kept who the patients are', exact: false }).click()
    const change = page.getByRole('form', { name: 'Change the limit' })
    await change.getByRole('radio', { name: 'Yes' }).check()
    await change.getByLabel('Reason').fill('Patients are called after the operation')
    await change.getByRole('button', { name: 'Change the limit' }).click()
    const dialog = page.getByRole('dialog', { name: 'Sign it' })
    await dialog.getByLabel('Nobody else here may confirm this').check()
    await dialog.getByRole('button', { name: 'Sign by passkey' }).click()
    await dialog.waitFor({ state: 'detached' })
    const entries = await service.journal.read('unit' as never).entries({ afterSeq: 0, limit: 100 })
    const signed = entries.findLast(({ kind }) => kind === 'limit-changed')?.signed
    assert.deepEqual(signed?.find(({ as }) => as === 'author')?.how, 'passkey')

    // Not verified by its owner, the same key proves nothing.
    await authenticator.send('WebAuthn.setUserVerified', { authenticatorId, isUserVerified: false })
    await page.getByRole('button', { name: 'Working: Mira. Change' }).click()
    await page.getByRole('button', { name: 'Change person' }).click()
    await door.getByRole('button', { name: 'By passkey' }).click()
    await door.getByRole('alert').filter({ hasText: 'No passkey was used' }).waitFor()
  },
)
