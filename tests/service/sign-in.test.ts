import assert from 'node:assert/strict'
import { after, describe, test } from 'node:test'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { runMain } from '#cli/main.ts'
import type { ApiProblem, EntriesPage, EntryKept, MeAnswer } from '#service/api-types.ts'
import type { CookieBrowser, Said } from '../support/browser-cookies.ts'
import { passphraseOf, pinOf, SignedUnit } from '../support/signed-unit.ts'
import { runService } from '../support/running-service.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'

/*
 * Signing in at a real service, on both engines. What is asked of passphrases, PINs and locks follows NIST SP 800-63B in
 * outline; that an entry is in the name of who made it and a decision signed, 21 CFR 11.50, 11.70 and 11.200 (from memory).
 */

const postgres = await postgresService()
after(() => postgres[Symbol.asyncDispose]())

const typeOf = ({ body }: Said): string => (body as ApiProblem).type
const meOf = async (browser: CookieBrowser): Promise<MeAnswer> => (await browser.ask('GET', '/api/me')).body as MeAnswer
const fieldsOf = ({ body }: Said): readonly string[] => ((body as ApiProblem).problems ?? []).map(({ field }) => field)

for (const engine of [sqliteService, postgres])
  describe(`sign-in on ${engine.name}`, () => {
    test('given a new record, when no code or a wrong one comes, then no unit is opened; with the code it is, once', async () => {
      await using service = await runService({
        environment: { ...(await engine.newRecord()), NILGROWTH_SIGN_IN: 'required' },
      })
      const choice = { choice: 'empty', name: 'Invented', timeZone: 'UTC', manager: 'Mira' }
      const without = await service.ask('POST', '/api/unit', choice)
      assert.deepEqual([without.status, fieldsOf(without)], [422, ['code', 'passphrase']])
      const guessed = { ...choice, code: 'AAAA-BBBB-CCCC-DDDD', passphrase: passphraseOf('Mira') }
      assert.deepEqual(fieldsOf(await service.ask('POST', '/api/unit', guessed)), ['code'])
      assert.equal((await service.ask('POST', '/api/entries', [])).status, 401, 'nothing else is open before that')
      const code = service.log
        .find((line) => line.includes('one-time code'))
        ?.split(' ')
        .at(-1)
      // As it is copied by hand: small letters, no hyphens.
      const copied = code?.toLowerCase().replaceAll('-', ' ')
      const passphrase = passphraseOf('Mira')
      assert.equal((await service.ask('POST', '/api/unit', { ...choice, code: copied, passphrase })).status, 202)
      assert.equal((await service.ask('POST', '/api/unit', { ...choice, code: copied, passphrase })).status, 422)
    })

    test('given a unit of our own, when nobody is signed in, then only what is no secret is answered', async () => {
      await using unit = await SignedUnit.open(engine)
      const nobody = unit.browser()
      assert.equal((await nobody.ask('GET', '/api/known?kind=case')).status, 401)
      assert.equal((await nobody.ask('GET', '/api/health')).status, 200)
      assert.deepEqual((await meOf(nobody)).person, null)
      assert.equal((await meOf(unit.manager)).person?.id, 'person:mira')
    })

    test('given a wrong passphrase, an unknown name and a locked account, then all three are told in the same words', async () => {
      await using unit = await SignedUnit.open(engine)
      const browser = unit.browser()
      const wrong = await unit.signIn(browser, 'Mira', 'not the passphrase of Mira')
      const unknown = await unit.signIn(browser, 'Nobody')
      assert.deepEqual([wrong.status, unknown.status], [401, 401])
      for (let tries = 0; tries < 4; tries += 1) await unit.signIn(browser, 'Mira', 'not the passphrase of Mira')
      const locked = await unit.signIn(browser, 'Mira')
      assert.deepEqual(locked, wrong)
      assert.deepEqual(unknown.body, wrong.body)
      unit.pass(14)
      assert.equal((await unit.signIn(browser, 'Mira')).status, 401)
      unit.pass(2)
      assert.equal((await unit.signIn(browser, 'Mira')).status, 200)
    })

    test('given a session, when nothing is done for 15 minutes or 12 hours are over, then it has ended', async () => {
      await using unit = await SignedUnit.open(engine)
      unit.pass(14)
      assert.equal((await unit.manager.ask('POST', '/api/me/active')).status, 200)
      unit.pass(14)
      assert.notEqual((await meOf(unit.manager)).person, null, 'what was done put the end off')
      unit.pass(2)
      assert.equal((await meOf(unit.manager)).person, null)
      await unit.signIn(unit.manager, 'Mira')
      for (let minutes = 0; minutes < 12 * 60; minutes += 10) {
        await unit.manager.ask('POST', '/api/me/active')
        unit.pass(10)
      }
      unit.pass(1)
      assert.equal((await meOf(unit.manager)).person, null)
    })

    test('given somebody with a copy of the cookies, when the person signs out, then the copy is worth nothing', async () => {
      await using unit = await SignedUnit.open(engine)
      const thief = unit.manager.copy()
      assert.notEqual((await meOf(thief)).person, null)
      await unit.manager.ask('POST', '/api/sign-out')
      assert.equal((await meOf(thief)).person, null)
    })

    test('given an entry in the name of another, then it is not kept; in the own name it is, by the roles', async () => {
      await using unit = await SignedUnit.open(engine)
      const nurse = await unit.person('Nora', ['theatre'])
      const outlet = { outlet: 'outlet:sink', name: 'Sink', use: 'wash', treatment: 'none' }
      const inOtherName = await nurse.ask('POST', '/api/entries', unit.entry('mira', 'outlet-registered', outlet))
      assert.deepEqual([inOtherName.status, typeOf(inOtherName)], [403, '/problems/not-yours'])
      const notHers = await nurse.ask('POST', '/api/entries', unit.entry('nora', 'outlet-registered', outlet))
      assert.deepEqual([notHers.status, typeOf(notHers)], [403, '/problems/may-not'])
      const his = await unit.manager.ask('POST', '/api/entries', unit.entry('mira', 'outlet-registered', outlet))
      assert.equal(his.status, 201)
    })

    test('given a list of entries, when one may not be recorded, then the others are kept all the same', async () => {
      await using unit = await SignedUnit.open(engine)
      const nurse = await unit.person('Nora', ['theatre'])
      const outlet = (key: string) => ({ outlet: `outlet:${key}`, name: key, use: 'wash', treatment: 'none' })
      const sample = {
        person: 'person:nora',
        place: 'wash room',
        figures: { vapour: 'hydrogenPeroxide', periods: [], unlisted: [] },
      }
      const said = await nurse.ask('POST', '/api/entries', [
        unit.entry('nora', 'outlet-registered', outlet('sink')),
        unit.entry('nora', 'exposure-measured', sample),
      ])
      const outcomes = (said.body as readonly { readonly outcome: string }[]).map(({ outcome }) => outcome)
      assert.deepEqual(outcomes, ['notAllowed', 'unusable'])
    })

    test('given a decision, when it is not signed, then it is not kept; signed by passphrase it is, with the signature', async () => {
      await using unit = await SignedUnit.open(engine)
      const change = { limit: 'idle-minutes', policy: 'policy:unit', value: 10, reason: 'we want it shorter' }
      const entry = unit.entry('mira', 'limit-changed', change)
      const unsigned = await unit.manager.ask('POST', '/api/entries', entry)
      assert.deepEqual([typeOf(unsigned), fieldsOf(unsigned)], ['/problems/signature-needed', ['author', 'second']])
      const proving = { by: 'passphrase', name: 'Mira', passphrase: passphraseOf('Mira') }
      const wrongly = { ...proving, passphrase: 'not the passphrase of Mira' }
      const sign = (more: object) => unit.manager.ask('POST', '/api/signatures', { entry: entry.id, ...more })
      assert.equal((await sign({ as: 'author', proving: wrongly })).status, 401)
      assert.equal((await sign({ as: 'author', proving })).status, 200)
      // Nobody else of this unit could be the second person: that is said under the entry.
      const kept = (await unit.manager.ask('POST', '/api/entries', entry)).body as EntryKept
      assert.deepEqual(
        kept.entry.signed?.map(({ person, as, how, alone }) => ({ person, as, how, alone: alone === true })),
        [
          { person: 'person:mira', as: 'author', how: 'passphrase', alone: false },
          { person: 'person:mira', as: 'second', how: 'passphrase', alone: true },
        ],
      )
      assert.equal((await unit.manager.ask('POST', '/api/entries', entry)).status, 200, 'sent again it is kept already')
    })

    test('given a second person who could confirm, then the change of a limit waits for their signature, and for no other', async () => {
      await using unit = await SignedUnit.open(engine)
      const surgeon = await unit.person('Sato', ['surgeonInCharge'])
      const technician = await unit.person('Tomas', ['reprocessing'])
      const change = { limit: 'idle-minutes', policy: 'policy:unit', value: 10, reason: 'we want it shorter' }
      const entry = unit.entry('mira', 'limit-changed', change)
      const sign = (browser: CookieBrowser, name: string, as: string) =>
        browser.ask('POST', '/api/signatures', {
          entry: entry.id,
          as,
          proving: { by: 'passphrase', name, passphrase: passphraseOf(name) },
        })
      await sign(unit.manager, 'Mira', 'author')
      await sign(unit.manager, 'Mira', 'second')
      await sign(technician, 'Tomas', 'second')
      assert.deepEqual(fieldsOf(await unit.manager.ask('POST', '/api/entries', entry)), ['second'])
      await sign(surgeon, 'Sato', 'second')
      const kept = (await unit.manager.ask('POST', '/api/entries', entry)).body as EntryKept
      assert.deepEqual(
        kept.entry.signed?.map(({ person }) => person),
        ['person:mira', 'person:sato'],
      )
    })

    test('given an enrolled tablet, then badge and PIN change the person there, and nowhere else', async () => {
      await using unit = await SignedUnit.open(engine)
      const nurse = await unit.person('Nora', ['theatre'])
      const secrets = { current: passphraseOf('Nora'), pin: pinOf, badge: 'B-0042' }
      for (const pin of ['123456', '111111', '8061'])
        assert.deepEqual(fieldsOf(await nurse.ask('POST', '/api/me/secrets', { ...secrets, pin })), ['pin'])
      assert.equal((await nurse.ask('POST', '/api/me/secrets', secrets)).status, 200)
      const elsewhere = unit.browser()
      const badge = { by: 'badge', badge: 'B-0042', pin: pinOf }
      assert.equal((await elsewhere.ask('POST', '/api/sign-in', badge)).status, 401)
      const tablet = unit.browser()
      await unit.signIn(tablet, 'Mira')
      assert.equal((await tablet.ask('POST', '/api/devices', { name: 'Wash room' })).status, 200)
      assert.equal((await tablet.ask('POST', '/api/sign-in', badge)).status, 200)
      assert.deepEqual((await meOf(tablet)).person?.id, 'person:nora')
      const devices = (await unit.manager.ask('GET', '/api/devices')).body as readonly { readonly id: string }[]
      await unit.manager.ask('POST', `/api/devices/${devices[0]?.id}/end`)
      assert.equal((await meOf(tablet)).person, null, 'a tablet that is ended signs everyone out')
      assert.equal((await tablet.ask('POST', '/api/sign-in', badge)).status, 401)
    })

    test('given an entry that waited for the network at a tablet, when the next person sends it, then it is kept in the name of who made it', async () => {
      await using unit = await SignedUnit.open(engine)
      const tablet = unit.browser()
      await unit.signIn(tablet, 'Mira')
      await tablet.ask('POST', '/api/devices', { name: 'Wash room' })
      const nurse = await unit.person('Nora', ['theatre', 'reprocessing'])
      await nurse.ask('POST', '/api/me/secrets', { current: passphraseOf('Nora'), pin: pinOf, badge: 'B-0042' })
      unit.pass(1)
      const outlet = (key: string) => ({ outlet: `outlet:${key}`, name: key, use: 'wash', treatment: 'none' })
      const hers = unit.entry('mira', 'outlet-registered', outlet('sink'))
      unit.pass(1)
      await tablet.ask('POST', '/api/sign-in', { by: 'badge', badge: 'B-0042', pin: pinOf })
      unit.pass(1)
      const late = unit.entry('mira', 'outlet-registered', outlet('later'))
      assert.equal((await tablet.ask('POST', '/api/entries', hers)).status, 201)
      assert.equal((await tablet.ask('POST', '/api/entries', late)).status, 403, 'she had signed out by then')
    })

    test('given a session that nobody ended, when an entry is said to be made after its hours, then it is not taken from the next person', async () => {
      await using unit = await SignedUnit.open(engine)
      const tablet = unit.browser()
      await unit.signIn(tablet, 'Mira')
      await tablet.ask('POST', '/api/devices', { name: 'Wash room' })
      await unit.person('Nora', ['theatre', 'reprocessing'])
      const outlet = (key: string) => ({ outlet: `outlet:${key}`, name: key, use: 'wash', treatment: 'none' })
      unit.pass(11 * 60)
      const within = unit.entry('mira', 'outlet-registered', outlet('sink'))
      // A session lasts twelve hours by default.
      unit.pass(2 * 60)
      const after = unit.entry('mira', 'outlet-registered', outlet('later'))
      tablet.loseSession()
      await unit.signIn(tablet, 'Nora')
      assert.equal((await tablet.ask('POST', '/api/entries', within)).status, 201)
      assert.equal((await tablet.ask('POST', '/api/entries', after)).status, 403, 'her session was over by then')
    })

    test('given a person who left, or whose account was closed, then nothing of theirs signs in', async () => {
      await using unit = await SignedUnit.open(engine)
      const nurse = await unit.person('Nora', ['theatre'])
      const technician = await unit.person('Tomas', ['reprocessing'])
      unit.pass(1)
      await unit.manager.ask('POST', '/api/entries', unit.entry('mira', 'person-left', { person: 'person:nora' }))
      assert.equal((await meOf(nurse)).person, null)
      assert.equal((await unit.signIn(nurse, 'Nora')).status, 401)
      await unit.manager.ask('POST', '/api/accounts/person:tomas/close')
      assert.equal((await meOf(technician)).person, null)
      assert.equal((await unit.signIn(technician, 'Tomas')).status, 401)
    })

    test('given the only manager, then leaving, giving up that role or withdrawing the registration is told before it is done, until another one is there', async () => {
      await using unit = await SignedUnit.open(engine)
      const { entries } = (await unit.manager.ask('GET', '/api/entries?subject=person:mira')).body as EntriesPage
      const registered = entries.find(({ kind }) => kind === 'person-registered')
      assert.ok(registered)
      const left = unit.entry('mira', 'person-left', { person: 'person:mira' })
      const nurse = { person: 'person:mira', name: 'Mira', roles: ['theatre'] }
      const gaveUp = unit.entry('mira', 'person-registered', nurse, { corrects: registered.id })
      const said = async (entry: object) =>
        JSON.stringify((await unit.manager.ask('POST', '/api/entries/judge', entry)).body)
      assert.match(await said(left), /"manager-remains".*Mira is the only manager/)
      assert.match(await said(gaveUp), /"manager-remains".*Mira is the only manager/)
      const withdrawn = unit.entry('mira', 'entry-withdrawn', { why: 'entered twice' }, { corrects: registered.id })
      assert.match(await said(withdrawn), /"manager-remains".*Mira is the only manager/)
      await unit.person('Nora', ['manager'])
      assert.doesNotMatch(await said(left), /manager-remains/)
      assert.doesNotMatch(await said(gaveUp), /manager-remains/)
      assert.doesNotMatch(await said(withdrawn), /manager-remains/)
    })

    test('given a passkey of one’s own, when it is taken away, then it is once; one that is not there, or another’s, is not, and no line says so', async () => {
      await using unit = await SignedUnit.open(engine)
      const nora = await unit.person('Nora', ['theatre'])
      const credentials = unit.service.journal.credentials('unit' as SiteId)
      const made = {
        publicKey: 'x',
        counter: 0,
        host: 'unit.example',
        name: 'A phone',
        keptAt: unit.now(),
        usedAt: null,
      }
      await credentials.keepPasskey({ ...made, id: 'of-nora', person: 'person:nora' })
      await credentials.keepPasskey({ ...made, id: 'of-mira', person: 'person:mira' })
      const remove = async (id: string) => (await nora.ask('DELETE', `/api/me/passkeys/${id}`)).status
      assert.deepEqual(
        [await remove('of-nora'), await remove('of-nora'), await remove('of-mira'), await remove('nothing')],
        [200, 404, 404, 404],
      )
      assert.equal((await credentials.passkeysOf('person:mira')).length, 1)
      const lines = await credentials.accesses({ limit: 100 })
      assert.equal(lines.filter(({ about }) => about === 'passkey taken away').length, 1)
      const wrong = await nora.ask('POST', '/api/me/passkeys/of-nora')
      assert.equal(wrong.status, 405, 'the address is one, by another method')
    })

    test('given a one-time code, then it is good once and for three days', async () => {
      await using unit = await SignedUnit.open(engine)
      await unit.person('Nora', ['theatre'])
      const { code } = (await unit.manager.ask('POST', '/api/accounts/person:nora/code')).body as { code: string }
      const browser = unit.browser()
      const use = () => browser.ask('POST', '/api/sign-in', { by: 'code', code, passphrase: passphraseOf('Nora') })
      const short = await browser.ask('POST', '/api/sign-in', { by: 'code', code, passphrase: 'short' })
      assert.deepEqual(fieldsOf(short), ['passphrase'])
      unit.pass(72 * 60 + 1)
      assert.equal((await use()).status, 401)
      await unit.signIn(unit.manager, 'Mira')
      const again = (await unit.manager.ask('POST', '/api/accounts/person:nora/code')).body as { code: string }
      const fresh = { by: 'code', code: again.code, passphrase: passphraseOf('Nora') }
      assert.equal((await browser.ask('POST', '/api/sign-in', fresh)).status, 200)
      assert.equal((await browser.ask('POST', '/api/sign-in', fresh)).status, 401)
    })

    test('given what happened at the door, then the log of access says it, to managers and auditors', async () => {
      await using unit = await SignedUnit.open(engine)
      const auditor = await unit.person('Ada', ['auditor'])
      const nurse = await unit.person('Nora', ['theatre'])
      await unit.signIn(unit.browser(), 'Nora', 'not the passphrase of Nora')
      assert.equal((await nurse.ask('GET', '/api/access')).status, 403)
      const { lines } = (await auditor.ask('GET', '/api/access?limit=3')).body as {
        lines: readonly { what: string; person: string | null; about: string | null }[]
      }
      assert.deepEqual(
        lines.map(({ what, person, about }) => [what, person, about]),
        [
          ['was not allowed', 'person:nora', 'GET /api/access'],
          ['turned away', 'person:nora', 'passphrase'],
          ['signed in', 'person:nora', 'code'],
        ],
      )
    })
  })

test('given nobody who can sign in any more, then whoever may write to the store gives a code by the command line', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  const run = async (...args: readonly string[]): Promise<{ readonly code: number; readonly said: string }> => {
    let said = ''
    const write = (text: string) => (said += text)
    const code = await runMain(['access', ...args], {
      stdin: (async function* () {})(),
      stdout: { write },
      stderr: { write },
    })
    return { code, said }
  }
  const at = ['--data', unit.service.file]
  const given = await run('code', 'mira', ...at)
  assert.equal(given.code, 0)
  const code = given.said.split('\n')[0]
  assert.equal((await meOf(unit.manager)).person, null, 'what she signed in with has ended')
  const began = { by: 'code', code, passphrase: passphraseOf('Mira') }
  assert.equal((await unit.manager.ask('POST', '/api/sign-in', began)).status, 200)
  // The unit of the test lives in the past; the command goes by the clock of the machine.
  const now = new Date().toISOString() as Instant
  const session = {
    person: 'person:mira',
    device: null,
    how: 'passphrase',
    startedAt: now,
    seenAt: now,
    endedAt: null,
  } as const
  await unit.service.journal.credentials('unit' as SiteId).startSession({ ...session, token: 'a'.repeat(64) })
  const listed = await run('sessions', 'mira', ...at)
  assert.match(listed.said, /^since \S+Z by passphrase at a browser, last used \S+Z, ends by itself \S+Z\n$/)
  assert.equal((await run('end-sessions', 'mira', ...at)).said, '1 sessions of Mira ended\n')
  assert.equal((await run('sessions', 'mira', ...at)).said, 'Mira is signed in nowhere\n')
  for (const [args, wanted] of [
    [['code'], /wanted code or sessions or end-sessions and a person/],
    [['code', 'set:a', ...at], /PERSON: wanted the id of a person/],
    [['code', 'nobody', ...at], /wanted somebody who works here/],
  ] as const) {
    const refused = await run(...args)
    assert.notEqual(refused.code, 0)
    assert.match(refused.said, wanted)
  }
})
