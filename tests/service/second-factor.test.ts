import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { ApiProblem, EntryKept, MeAnswer } from '#service/api-types.ts'
import type { Said } from '../support/browser-cookies.ts'
import { passphraseOf, pinOf, SignedUnit } from '../support/signed-unit.ts'
import { sqliteService } from '../support/service-engines.ts'

/* Where the policy asks for more than a passphrase (OWASP ASVS 5.0, 6.3.3; from memory). */

const typeOf = ({ body }: Said): string => (body as ApiProblem).type

async function limit(unit: SignedUnit, value: boolean): Promise<void> {
  const change = { limit: 'passphrase-alone', policy: 'policy:unit', value, reason: 'our hospital asks for it' }
  const entry = unit.entry('mira', 'limit-changed', change)
  const proving = { by: 'passphrase', name: 'Mira', passphrase: passphraseOf('Mira') }
  assert.equal(
    (await unit.manager.ask('POST', '/api/signatures', { entry: entry.id, as: 'author', proving })).status,
    200,
  )
  const kept = (await unit.manager.ask('POST', '/api/entries', entry)).body as EntryKept
  assert.equal(kept.entry.kind, 'limit-changed')
}

test('given a policy that asks for more than a passphrase, then it signs in at an enrolled tablet alone, and a one-time code is the way to a passkey', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  const tablet = unit.manager
  assert.equal((await tablet.ask('POST', '/api/devices', { name: 'Wash room' })).status, 200)
  const elsewhere = unit.browser()
  assert.equal((await unit.signIn(elsewhere, 'Mira')).status, 200)
  await limit(unit, false)

  const right = await unit.signIn(elsewhere, 'Mira')
  assert.deepEqual([right.status, typeOf(right)], [403, '/problems/passkey-wanted'])
  assert.deepEqual(await unit.signIn(elsewhere, 'Mira', 'not the passphrase of Mira'), right, 'it tells nothing of it')
  const me = async (browser: typeof elsewhere) => (await browser.ask('GET', '/api/me')).body as MeAnswer
  assert.equal((await me(elsewhere)).passphraseAlone, false)
  assert.equal((await me(elsewhere)).person?.id, 'person:mira', 'who is in stays in')

  assert.equal((await tablet.ask('POST', '/api/me/secrets', { current: passphraseOf('Mira'), pin: pinOf })).status, 200)
  assert.equal((await unit.signIn(tablet, 'Mira')).status, 200, 'the tablet is the other factor')
  const nora = await unit.person('Nora', ['theatre'])
  assert.equal((await me(nora)).person?.id, 'person:nora', 'signed in by the code that the manager gave')
  assert.equal((await nora.ask('POST', '/api/me/passkeys/challenge')).status, 200)
  await nora.ask('POST', '/api/sign-out')
  assert.equal(typeOf(await unit.signIn(nora, 'Nora')), '/problems/passkey-wanted')
})
