import assert from 'node:assert/strict'
import { after, describe, test } from 'node:test'
import type { MeAnswer, SessionRow } from '#service/api-types.ts'
import type { CookieBrowser } from '../support/browser-cookies.ts'
import { passphraseOf, SignedUnit } from '../support/signed-unit.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'

/* One's own sessions are seen, and ended by who proves once more who they are (OWASP ASVS 5.0, 7.5.2; from memory). */

const postgres = await postgresService()
after(() => postgres[Symbol.asyncDispose]())

const meOf = async (browser: CookieBrowser): Promise<MeAnswer> => (await browser.ask('GET', '/api/me')).body as MeAnswer

for (const engine of [sqliteService, postgres])
  describe(`own sessions on ${engine.name}`, () => {
    test('given somebody signed in at three places, when one is ended and then the others, then those are over, and not before the passphrase is given', async () => {
      await using unit = await SignedUnit.open(engine)
      const nora = await unit.person('Nora', ['theatre'])
      const [desk, home] = [unit.browser(), unit.browser()]
      unit.pass(1)
      await unit.signIn(desk, 'Nora')
      unit.pass(1)
      await unit.signIn(home, 'Nora')
      const rows = async (from: CookieBrowser) => (await from.ask('GET', '/api/me/sessions')).body as SessionRow[]
      const end = (session: string, current = passphraseOf('Nora')) =>
        nora.ask('POST', '/api/me/sessions/end', { current, session })
      const [last, middle, own] = await rows(nora)
      assert.deepEqual(
        (await rows(nora)).map(({ here, how, tablet }) => [here, how, tablet]),
        [
          [false, 'passphrase', null],
          [false, 'passphrase', null],
          [true, own?.how, null],
        ],
      )
      assert.deepEqual((await rows(unit.manager)).length, 1, 'nobody sees those of another')
      assert.equal((await end(last?.id ?? '', 'not the passphrase of Nora')).status, 401)
      assert.notEqual((await meOf(home)).person, null)
      assert.deepEqual((await end(last?.id ?? '')).body, { ended: 1 })
      assert.equal((await meOf(home)).person, null)
      assert.notEqual((await meOf(desk)).person, null)
      assert.deepEqual((await end('others')).body, { ended: 1 })
      assert.equal((await meOf(desk)).person, null)
      assert.equal((await end(middle?.id ?? '')).status, 404)
      assert.equal((await end('others')).status, 200)
      const [managers] = await rows(unit.manager)
      assert.equal((await end(managers?.id ?? '')).status, 404, 'not those of another')
      assert.notEqual((await meOf(unit.manager)).person, null)
      assert.equal((await rows(nora)).length, 1)
      unit.pass(16)
      assert.equal((await nora.ask('GET', '/api/me/sessions')).status, 401)
    })
  })
