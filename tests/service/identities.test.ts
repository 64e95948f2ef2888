import assert from 'node:assert/strict'
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { after, describe, test } from 'node:test'
import { theRoad } from '#road/the-road.ts'
import type { Place } from '#journal/place.ts'
import { verify } from '#journal/verify/verify.ts'
import { runMain } from '#cli/main.ts'
import type { ApiProblem, IdentityFound, IdentityLogLine, IdentityState } from '#service/api-types.ts'
import type { CookieBrowser, Said } from '../support/browser-cookies.ts'
import { caseOfIdentities, keepsIdentities } from '../support/identity-unit.ts'
import { SignedUnit } from '../support/signed-unit.ts'
import { postgresService, type ServiceEngine, sqliteService } from '../support/service-engines.ts'

/*
 * Who the patients are, on both engines. Pseudonymous by default, apart from the record, each look logged, erasure: after the
 * General Data Protection Regulation, articles 4(5), 17 and 32 (from memory). All patients are invented.
 */

const postgres = await postgresService()
const keys = mkdtempSync(join(tmpdir(), 'nilgrowth-identity-keys-'))
after(async () => {
  await postgres[Symbol.asyncDispose]()
  rmSync(keys, { recursive: true })
})

const typeOf = ({ body }: Said): string => (body as ApiProblem).type
const of = '/api/cases/case:c-1/identity'
const ada = { name: 'Ada Kowalczyk-Invented', hospitalNumber: 'H-7781', bornOn: '1971-04-02', phone: '555 0142' }

const logOf = async (who: CookieBrowser): Promise<readonly IdentityLogLine[]> =>
  ((await who.ask('GET', '/api/identities/log')).body as { lines: readonly IdentityLogLine[] }).lines
const stateOf = async (who: CookieBrowser): Promise<IdentityState> => (await who.ask('GET', of)).body as IdentityState

for (const engine of [keyed(sqliteService), keyed(postgres)])
  describe(`identities of patients on ${engine.name}`, () => {
    test('given a new unit, when who a patient is should be written down, then it is not: cases have numbers only', async () => {
      await using unit = await SignedUnit.open(engine)
      const { nurse } = await caseOfIdentities(unit)
      const refused = await nurse.ask('PUT', of, { identity: ada, why: 'care' })
      assert.deepEqual([refused.status, typeOf(refused)], [409, '/problems/identities-not-kept'])
      assert.deepEqual(await stateOf(nurse), { unitKeeps: false, is: 'none', at: null })
    })

    test('given who may, when they write, see, search and erase, then they can, nobody else can, and each is logged with its reason', async () => {
      await using unit = await SignedUnit.open(engine)
      const people = await caseOfIdentities(unit)
      const { nurse, surgeon, auditor } = people
      await keepsIdentities(people)
      assert.equal((await nurse.ask('PUT', of, { identity: ada, why: 'care' })).status, 200)
      const phone = '555 0199'
      assert.equal((await nurse.ask('PUT', of, { identity: { phone }, why: 'correction' })).status, 200)
      const corrected = await surgeon.ask('POST', `${of}/see`, { why: 'care' })
      assert.deepEqual((corrected.body as { identity: object }).identity, { ...ada, phone }, 'what is left out stays')
      assert.equal((await nurse.ask('PUT', of, { identity: ada, why: 'correction' })).status, 200)
      const seen = await surgeon.ask('POST', `${of}/see`, { why: 'followUp' })
      assert.deepEqual((seen.body as { identity: object }).identity, ada)
      const found = await surgeon.ask('POST', '/api/identities/search', { text: 'kowalczyk', why: 'recall' })
      assert.deepEqual((found.body as { found: readonly IdentityFound[] }).found, [{ case: 'case:c-1', identity: ada }])
      const nobody = await surgeon.ask('POST', '/api/identities/search', { text: 'Zuleika', why: 'recall' })
      assert.deepEqual((nobody.body as { found: readonly IdentityFound[] }).found, [])
      for (const [who, method, path, body] of [
        [nurse, 'POST', `${of}/see`, { why: 'care' }],
        [nurse, 'POST', '/api/identities/search', { text: 'Ada', why: 'care' }],
        [nurse, 'POST', `${of}/erase`, { why: 'patientAsked' }],
        [auditor, 'POST', `${of}/see`, { why: 'care' }],
        [auditor, 'PUT', of, { identity: ada, why: 'care' }],
        [unit.manager, 'POST', `${of}/see`, { why: 'care' }],
        [surgeon, 'GET', '/api/identities/log', undefined],
      ] as const)
        assert.equal((await who.ask(method, path, body)).status, 403, `${method} ${path}`)
      assert.equal((await surgeon.ask('POST', `${of}/erase`, { why: 'patientAsked' })).status, 200)
      assert.equal((await surgeon.ask('POST', `${of}/see`, { why: 'care' })).status, 404)
      assert.equal((await stateOf(nurse)).is, 'erased')
      assert.deepEqual(
        (await logOf(auditor)).map(({ person, act, case: about, why }) => [person, act, about, why]),
        [
          ['person:sana', 'erased', 'case:c-1', 'patientAsked'],
          ['person:sana', 'searched', null, 'recall'],
          ['person:sana', 'seen', 'case:c-1', 'recall'],
          ['person:sana', 'searched', null, 'recall'],
          ['person:sana', 'seen', 'case:c-1', 'followUp'],
          ['person:nora', 'kept', 'case:c-1', 'correction'],
          ['person:sana', 'seen', 'case:c-1', 'care'],
          ['person:nora', 'kept', 'case:c-1', 'correction'],
          ['person:nora', 'kept', 'case:c-1', 'care'],
        ],
      )
    })

    test('given bad input, when it comes, then it is said what was wanted, and the log holds nothing of the patient', async () => {
      await using unit = await SignedUnit.open(engine)
      const people = await caseOfIdentities(unit)
      await keepsIdentities(people)
      const { nurse } = people
      for (const [identity, wanted] of [
        [{}, 'a name'],
        [{ name: '' }, 'name'],
        [{ bornOn: '2.4.1971' }, 'bornOn'],
        [{ ...ada, diagnosis: 'Invented' }, 'diagnosis'],
      ] as const) {
        const said = await nurse.ask('PUT', of, { identity, why: 'care' })
        assert.equal(said.status, 422)
        assert.match(JSON.stringify(said.body), new RegExp(wanted))
      }
      const named = { ...ada, phone: '12' }
      assert.equal((await nurse.ask('PUT', of, { identity: named, why: 'care' })).status, 422)
      assert.doesNotMatch(unit.service.log.join('\n'), /Kowalczyk|7781|1971|2\.4\./)
      assert.equal((await nurse.ask('PUT', of, { identity: ada, why: 'curious' })).status, 422)
      assert.equal((await nurse.ask('PUT', of, { identity: ada })).status, 422, 'a reason is wanted')
      const elsewhere = await nurse.ask('PUT', '/api/cases/case:none/identity', { identity: ada, why: 'care' })
      assert.equal(elsewhere.status, 404)
    })

    test('given an identity, when it is erased, then the chain is proven as before, and neither record nor export ever held it', async () => {
      await using unit = await SignedUnit.open(engine)
      const people = await caseOfIdentities(unit)
      await keepsIdentities(people)
      const { nurse, surgeon } = people
      const before = await recordOf(unit)
      assert.equal((await nurse.ask('PUT', of, { identity: ada, why: 'care' })).status, 200)
      assert.deepEqual(await recordOf(unit), before, 'writing it down makes no entry')
      assert.equal((await surgeon.ask('POST', `${of}/erase`, { why: 'patientAsked' })).status, 200)
      const record = await recordOf(unit)
      assert.deepEqual(record, before)
      for (const value of Object.values(ada)) assert.ok(!record.includes(value), value)
      const verified = await verify({ at: engine.placeOf(unit), road: theRoad })
      assert.equal(verified.kind, 'sound', JSON.stringify(verified))
    })
  })

describe('identities on one computer', () => {
  test('given an erased identity, when the file is searched for its bytes, then they are not in it', async () => {
    await using unit = await SignedUnit.open(sqliteService)
    const people = await caseOfIdentities(unit)
    await keepsIdentities(people)
    await people.nurse.ask('PUT', of, { identity: ada, why: 'care' })
    const sealed = sealedIdentity(unit)
    assert.ok(filesHold(unit, sealed), 'it is there as long as it is kept, encrypted')
    assert.ok(!filesHold(unit, Buffer.from('Kowalczyk')), 'never in plain text')
    await people.surgeon.ask('POST', `${of}/erase`, { why: 'patientAsked' })
    await unit.service.journal.close()
    assert.ok(!filesHold(unit, sealed))
  })

  test('given a copy that stands beside the store, when an identity is erased by the command, then the copy is named', async () => {
    await using unit = await SignedUnit.open(sqliteService)
    const people = await caseOfIdentities(unit)
    await keepsIdentities(people)
    const keep = () => people.nurse.ask('PUT', of, { identity: ada, why: 'care' })
    await keep()
    const quiet = await command(unit, 'identity', 'erase', 'case:c-1', '--why', 'patientAsked')
    assert.deepEqual([quiet.code, quiet.out], [0, ''])
    await keep()
    const copy = `${unit.service.file}.before-format-6`
    copyFileSync(unit.service.file, copy)
    const told = await command(unit, 'identity', 'erase', 'case:c-1', '--why', 'patientAsked')
    assert.match(told.out, /^Erased here\. What was kept beside the store may still hold it, encrypted/)
    assert.equal(told.out.trim().split('\n').at(-1), copy)
  })

  test('given the store without its key, when an identity is asked for, then it is said and nothing is shown', async () => {
    await using unit = await SignedUnit.open(sqliteService)
    const people = await caseOfIdentities(unit)
    await keepsIdentities(people)
    await people.nurse.ask('PUT', of, { identity: ada, why: 'care' })
    const shown = await command(unit, 'identity', 'show', 'case:c-1', '--why', 'recall')
    assert.deepEqual(JSON.parse(shown.out), ada)
    rmSync(`${unit.service.file}.identity-key`)
    const lost = await command(unit, 'identity', 'show', 'case:c-1', '--why', 'recall')
    assert.deepEqual([lost.code, lost.out], [1, ''])
    assert.match(lost.err, /^identity: The key of the patients' identities is not at .*: put it back/)
    const log = await command(unit, 'identity', 'log', 'case:c-1')
    assert.match(log.out.split('\n')[0] ?? '', /"person":null,"act":"seen"/, 'the command line is logged too')
  })
})

async function recordOf(unit: SignedUnit): Promise<string> {
  let text = ''
  for await (const line of unit.service.journal.exportLines()) text += `${line}\n`
  return text
}

/** An engine each of whose records has a key in a folder that is taken away. */
function keyed(engine: ServiceEngine): ServiceEngine & { placeOf(unit: SignedUnit): Place } {
  let records = 0
  let url: string | undefined
  return {
    name: engine.name,
    async newRecord() {
      records += 1
      const environment = await engine.newRecord()
      url = environment['DATABASE_URL']
      return { ...environment, NILGROWTH_IDENTITY_KEY_FILE: join(keys, `${engine.name}-${records}`) }
    },
    placeOf: ({ service }) =>
      url === undefined ? { kind: 'sqlite', file: service.file } : { kind: 'postgres', url, upgradeFolder: keys },
  }
}

function sealedIdentity({ service }: SignedUnit): Buffer {
  using store = new DatabaseSync(service.file, { readOnly: true })
  const row = store.prepare("SELECT sealed FROM identity WHERE case_id = 'case:c-1'").get()
  return row?.['sealed'] instanceof Uint8Array ? Buffer.from(row['sealed']) : assert.fail('no identity is kept')
}

/** Whether any file of the record holds these bytes. */
function filesHold({ service }: SignedUnit, bytes: Buffer): boolean {
  const folder = dirname(service.file)
  return readdirSync(folder).some((name) => readFileSync(join(folder, name)).includes(bytes))
}

interface Ended {
  readonly code: number
  readonly out: string
  readonly err: string
}

async function command({ service }: SignedUnit, ...args: string[]): Promise<Ended> {
  const said = { out: '', err: '' }
  const code = await runMain([...args, '--data', service.file], {
    stdin: (async function* () {})(),
    stdout: { write: (text) => (said.out += text) },
    stderr: { write: (text) => (said.err += text) },
  })
  return { code, ...said }
}
