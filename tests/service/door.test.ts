import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { ApiProblem, MeAnswer } from '#service/api-types.ts'
import type { CookieBrowser, Said } from '../support/browser-cookies.ts'
import { passphraseOf, pinOf, SignedUnit } from '../support/signed-unit.ts'
import { sqliteService } from '../support/service-engines.ts'

/* What the door does against who asks too much, and with what is open when a session ends. */

const typeOf = ({ body }: Said): string => (body as ApiProblem).type
const isIn = async (browser: CookieBrowser): Promise<boolean> =>
  ((await browser.ask('GET', '/api/me')).body as MeAnswer).person !== null
const tooMany = '/problems/too-many-requests'

test('given more wrong tries from one address than a minute allows, then the next is turned away before it is worked out, a right one too', async () => {
  await using unit = await SignedUnit.open(sqliteService, { NILGROWTH_RATE_TRIES: '8' })
  const guesser = unit.browser()
  const tries: Said[] = []
  for (const name of ['Ann', 'Ben', 'Cat', 'Dan', 'Eve', 'Mira'])
    tries.push(await unit.signIn(guesser, name, 'a guess'))
  assert.deepEqual(
    tries.map(({ status }) => status),
    [401, 401, 401, 401, 429, 429],
  )
  const told = tries.at(4) ?? assert.fail('there is a fifth')
  assert.match((told.body as ApiProblem).remedy, /^Wait \d+ seconds and send it again\. Nothing was written\.$/)
  assert.equal(typeOf(await unit.signIn(unit.browser(), 'Mira')), tooMany)
  const code = { by: 'code', code: 'AAAA-BBBB-CCCC-DDDD', passphrase: passphraseOf('Mira') }
  assert.equal(typeOf(await guesser.ask('POST', '/api/sign-in', code)), tooMany)
  assert.equal(await isIn(unit.manager), true, 'who is signed in goes on')
})

test('given as many right ones, then none is turned away; and a tablet is not held back by what others guess at its address', async () => {
  await using unit = await SignedUnit.open(sqliteService, { NILGROWTH_RATE_TRIES: '8' })
  const nurse = await unit.person('Nora', ['theatre'])
  await nurse.ask('POST', '/api/me/secrets', { current: passphraseOf('Nora'), pin: pinOf, badge: 'B-0042' })
  const tablet = unit.manager
  assert.equal((await tablet.ask('POST', '/api/devices', { name: 'Wash room' })).status, 200)
  for (let turn = 0; turn < 12; turn += 1) assert.equal((await unit.signIn(unit.browser(), 'Nora')).status, 200)
  for (let turn = 0; turn < 5; turn += 1) await unit.signIn(unit.browser(), 'Nobody')
  assert.equal((await unit.signIn(unit.browser(), 'Nora')).status, 429)
  const badge = { by: 'badge', badge: 'B-0042', pin: pinOf }
  assert.equal((await tablet.ask('POST', '/api/sign-in', badge)).status, 200)
})

test('given one session that asks without end, then it is told when to go on, and a session beside it at the same address goes on', async () => {
  await using unit = await SignedUnit.open(sqliteService, {
    NILGROWTH_RATE_SESSION: '40',
    NILGROWTH_RATE_ADDRESS: '40',
  })
  const nurse = await unit.person('Nora', ['theatre'])
  const outcomes = await Promise.all(Array.from({ length: 60 }, () => nurse.ask('GET', '/api/unit')))
  const refused = outcomes.filter(({ status }) => status === 429)
  assert.ok(refused.length > 0 && refused.length < 60, `${refused.length} of 60 were too much`)
  assert.equal((await unit.manager.ask('GET', '/api/accounts')).status, 200)
  const nobody = await Promise.all(Array.from({ length: 60 }, () => unit.browser().ask('GET', '/api/unit')))
  assert.ok(
    nobody.some(({ status }) => status === 429),
    'without a session the address counts',
  )
  assert.equal((await unit.manager.ask('GET', '/api/accounts')).status, 200)
})

test('given a wrong present passphrase, when a new one is set, then it counts and locks as it does at the door', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  const set = (current: string) => unit.manager.ask('POST', '/api/me/secrets', { current, pin: pinOf })
  for (let tries = 0; tries < 5; tries += 1) assert.equal((await set('a guess by who took the tablet')).status, 401)
  assert.equal((await set(passphraseOf('Mira'))).status, 401, 'locked')
  unit.pass(14)
  await unit.manager.ask('POST', '/api/me/active')
  unit.pass(2)
  assert.equal((await set(passphraseOf('Mira'))).status, 200)
})

for (const [what, changed] of [
  ['passphrase', { passphrase: passphraseOf('Mira the second') }],
  ['PIN', { pin: pinOf }],
  ['badge', { badge: 'B-0007' }],
] as const)
  test(`given somebody with a copy of the cookies, when the ${what} is changed, then the copy is worth nothing`, async () => {
    await using unit = await SignedUnit.open(sqliteService)
    const thief = unit.manager.copy()
    const set = { current: passphraseOf('Mira'), ...changed }
    assert.equal((await unit.manager.ask('POST', '/api/me/secrets', set)).status, 200)
    assert.deepEqual([await isIn(thief), await isIn(unit.manager)], [false, true])
  })

for (const [what, end] of [
  ['she signs out', (_unit: SignedUnit, nurse: CookieBrowser) => nurse.ask('POST', '/api/sign-out')],
  ['her account is closed', (unit: SignedUnit) => unit.manager.ask('POST', '/api/accounts/person:nora/close')],
  ['nothing is done for 16 minutes', (unit: SignedUnit) => Promise.resolve(unit.pass(16))],
  [
    'she leaves',
    (unit: SignedUnit) =>
      unit.manager.ask('POST', '/api/entries', unit.entry('mira', 'person-left', { person: 'person:nora' })),
  ],
] as const)
  test(`given an open stream, when ${what}, then the stream ends`, { timeout: 20_000 }, async () => {
    await using unit = await SignedUnit.open(sqliteService)
    const nurse = await unit.person('Nora', ['theatre'])
    const stream = await nurse.follow()
    assert.equal(stream.status, 200)
    unit.pass(1)
    await end(unit, nurse)
    assert.match(await stream.ended, /^event: here$/m)
    assert.equal((await nurse.follow()).status, 401)
  })

test('given the only manager, then her account is neither closed nor reset; with another manager it is', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  const refused = ['close', 'code'].map((what) => unit.manager.ask('POST', `/api/accounts/person:mira/${what}`))
  for (const said of await Promise.all(refused))
    assert.deepEqual([said.status, typeOf(said)], [409, '/problems/only-manager'])
  assert.equal(await isIn(unit.manager), true)
  await unit.person('Nora', ['manager'])
  assert.equal((await unit.manager.ask('POST', '/api/accounts/person:mira/close')).status, 200)
  assert.equal(await isIn(unit.manager), false)
})
