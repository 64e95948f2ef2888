import assert from 'node:assert/strict'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, describe, test } from 'node:test'
import { runMain } from '#cli/main.ts'
import type { ListImportAnswer, ListPreview } from '#service/exchange-answers.ts'
import type { ApiProblem, EntriesPage, KnownRow } from '#service/api-types.ts'
import type { CookieBrowser } from '../support/browser-cookies.ts'
import { caseOfIdentities, keepsIdentities } from '../support/identity-unit.ts'
import { SignedUnit } from '../support/signed-unit.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'

/* Operating lists of another system, on both engines: looked at, confirmed, once. All patients are invented. */

const postgres = await postgresService()
const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-list-import-'))
after(async () => {
  await postgres[Symbol.asyncDispose]()
  rmSync(folder, { recursive: true })
})

const message = (event: string, made: string, { start = '202612010830', surgeon = 'S-9^Sana' } = {}): string =>
  [
    `MSH|^~\\&|PLANNING|HOSPITAL|LOOP|UNIT|${made}+0000||SIU^${event}^SIU_S12|M-${event}-${made}|P|2.5.1`,
    'SCH||F-1001^KEEP|||||||90|min',
    `TQ1|1||||||${start}+0000`,
    'PID|1||H-5512^^^HOSP^MR||Kowalczyk^Ida||19710402|F',
    'AIS|1|A|CHOL^Cholecystectomy^LOCAL',
    'AIL|1|A|^^^^^^^^Theatre 1',
    `AIP|1|A|${surgeon}|SUR^Surgeon`,
  ].join('\r')

const look = async (who: CookieBrowser, text: string, format = 'hl7'): Promise<ListPreview> => {
  const said = await who.ask('POST', '/api/list-import/preview', { format, text })
  assert.equal(said.status, 200, JSON.stringify(said.body))
  return said.body as ListPreview
}
const confirm = (who: CookieBrowser, text: string, digest: string, format = 'hl7') =>
  who.ask('POST', '/api/list-import', { format, text, digest, by: 'person:nora' })
const entries = async (unit: SignedUnit): Promise<EntriesPage['entries']> =>
  ((await unit.manager.ask('GET', '/api/entries?limit=1000')).body as EntriesPage).entries
const rowsOf = ({ rows }: ListPreview) => rows.map(({ act, after }) => [act, after?.plannedAt])

for (const engine of [sqliteService, postgres])
  describe(`operating lists on ${engine.name}`, () => {
    test('given messages, when they are looked at, then nothing is written; confirmed, each is once, moved, and cancelled', async () => {
      await using unit = await SignedUnit.open(engine, { NILGROWTH_IDENTITY_KEY_FILE: join(folder, engine.name) })
      const { nurse, auditor } = await caseOfIdentities(unit)
      const before = (await entries(unit)).length
      const booked = message('S12', '20261130050000', { surgeon: 'S-9^Sana' })
      const unknown = await look(nurse, booked)
      assert.deepEqual(rowsOf(unknown), [['book', '2026-12-01T08:30:00.000Z']], JSON.stringify(unknown.rows))
      assert.equal((await entries(unit)).length, before, 'a look writes nothing')
      assert.doesNotMatch(JSON.stringify(unknown), /Kowalczyk|H-5512/, 'a look shows nothing of the patient')

      const wrong = await confirm(nurse, booked, 'another')
      assert.deepEqual([wrong.status, (wrong.body as ApiProblem).type], [409, '/problems/list-changed'])
      assert.equal((await auditor.ask('POST', '/api/list-import/preview', { format: 'hl7', text: booked })).status, 403)

      const [one, two] = await Promise.all([0, 1].map(() => confirm(nurse, booked, unknown.digest)))
      const recorded = [one, two].filter((each) => each?.status === 200)
      assert.equal(recorded.length >= 1, true)
      const answer = recorded[0]?.body as ListImportAnswer
      assert.deepEqual([answer.rows[0]?.outcome, answer.identitiesKept, answer.identitiesLeftOut], ['kept', 0, 1])
      assert.equal((await entries(unit)).length, before + 1, 'confirmed twice at once is once')
      const [again] = (await look(nurse, booked)).rows
      assert.equal(again?.act, 'same')

      const moved = message('S13', '20261130052000', { start: '202612011000' })
      const move = await look(nurse, moved)
      assert.deepEqual(rowsOf(move), [['move', '2026-12-01T10:00:00.000Z']])
      assert.equal((await confirm(nurse, moved, move.digest)).status, 200)
      assert.equal((await look(nurse, booked)).rows[0]?.act, 'older', 'the first message again changes nothing')
      const id = move.rows[0]?.case ?? assert.fail('it has a case')
      const known = async () => (await nurse.ask('GET', `/api/known/${id}`)).body as KnownRow<'case'>
      assert.equal((await known()).state.booked?.plannedAt, '2026-12-01T10:00:00.000Z')

      const cancelled = message('S15', '20261130053000')
      const cancel = await look(nurse, cancelled)
      assert.deepEqual(
        cancel.rows.map(({ act }) => act),
        ['cancel'],
      )
      assert.equal((await confirm(nurse, cancelled, cancel.digest)).status, 200)
      assert.equal((await look(nurse, cancelled)).rows[0]?.act, 'same')
      assert.equal((await look(nurse, booked)).rows[0]?.act, 'older')

      const anew = message('S12', '20261130054000')
      const back = await look(nurse, anew)
      assert.deepEqual(rowsOf(back), [['book', '2026-12-01T08:30:00.000Z']])
      assert.equal((await confirm(nurse, anew, back.digest)).status, 200)
      assert.equal((await known()).standing, 'booked')
      const written = (await entries(unit)).slice(before)
      assert.deepEqual(
        written.map(({ kind, by, workstation }) => [kind, by, workstation]),
        [
          ['case-booked', 'person:nora', 'SIU S12 M-S12-20261130050000'],
          ['case-booked', 'person:nora', 'SIU S13 M-S13-20261130052000'],
          ['entry-withdrawn', 'person:nora', 'SIU S15 M-S15-20261130053000'],
          ['case-booked', 'person:nora', 'SIU S12 M-S12-20261130054000'],
        ],
      )
      assert.doesNotMatch(JSON.stringify(written), /Kowalczyk|Ida|H-5512|19710402|1971/)
    })

    test('given a unit that keeps who patients are, when a nurse confirms, then beside the record; a technician may not book', async () => {
      await using unit = await SignedUnit.open(engine, {
        NILGROWTH_IDENTITY_KEY_FILE: join(folder, `${engine.name}-2`),
      })
      const people = await caseOfIdentities(unit)
      await keepsIdentities(people)
      const technician = await unit.person('Theo', ['reprocessing'])
      const text = message('S12', '20261130050000')
      const shown = await look(people.nurse, text)
      assert.equal(shown.identities, 1)
      const refused = await technician.ask('POST', '/api/list-import', {
        format: 'hl7',
        text,
        digest: shown.digest,
        by: 'person:theo',
      })
      assert.equal((refused.body as ListImportAnswer).rows[0]?.outcome, 'notAllowed')
      const kept = (await confirm(people.nurse, text, shown.digest)).body as ListImportAnswer
      assert.deepEqual([kept.rows[0]?.outcome, kept.identitiesKept], ['kept', 1])
      const id = shown.rows[0]?.case ?? ''
      const seen = await people.surgeon.ask('POST', `/api/cases/${id}/identity/see`, { why: 'care' })
      assert.deepEqual((seen.body as { identity: object }).identity, {
        name: 'Ida Kowalczyk',
        hospitalNumber: 'H-5512',
        bornOn: '1971-04-02',
      })
      assert.doesNotMatch(JSON.stringify(await entries(unit)), /Kowalczyk|H-5512/)
    })

    test('given a spreadsheet, when its columns and surgeons are mapped and kept, then it is read, and a changed row is a correction', async () => {
      await using unit = await SignedUnit.open(engine, {
        NILGROWTH_IDENTITY_KEY_FILE: join(folder, `${engine.name}-3`),
      })
      const { nurse } = await caseOfIdentities(unit)
      const list = (start: string): string =>
        `No;Begin;Room;Who;What;Implant\n17;${start};OP 1;Dr. S.;Hernia repair;yes\n18;never;OP 1;Dr. S.;Hernia repair;no`
      const plain = await look(nurse, list('01.12.2026 08:30'), 'csv')
      assert.match(plain.rows[0]?.says[0] ?? '', /no column was named for ref/)
      assert.deepEqual(plain.headings, ['No', 'Begin', 'Room', 'Who', 'What', 'Implant'])
      const columns = { ref: 'No', start: 'Begin', theatre: 'Room', surgeon: 'Who', procedure: 'What' }
      const mapping = { columns, theatres: { 'OP 1': 'Theatre 1' } }
      assert.equal((await nurse.ask('PUT', '/api/list-import/mapping', mapping)).status, 200)
      const asks = await look(nurse, list('01.12.2026 08:30'), 'csv')
      assert.deepEqual(asks.rows[0]?.asks, { what: 'surgeon', name: 'Dr. S.' })
      const whole = { ...mapping, surgeons: { 'Dr. S.': 'person:sana' } }
      assert.equal((await nurse.ask('PUT', '/api/list-import/mapping', whole)).status, 200)
      const shown = await look(nurse, list('01.12.2026 08:30'), 'csv')
      assert.deepEqual(
        shown.rows.map(({ line, act }) => [line, act]),
        [
          [2, 'book'],
          [3, 'cannot'],
        ],
      )
      assert.deepEqual(
        [shown.rows[0]?.after?.theatre, shown.rows[0]?.after?.surgeon, shown.rows[0]?.after?.implantPlanned],
        ['Theatre 1', 'person:sana', true],
      )
      assert.equal((await confirm(nurse, list('01.12.2026 08:30'), shown.digest, 'csv')).status, 200)
      assert.equal((await look(nurse, list('01.12.2026 08:30'), 'csv')).rows[0]?.act, 'same')
      const later = await look(nurse, list('01.12.2026 09:30'), 'csv')
      assert.equal(later.rows[0]?.act, 'move')
      assert.equal((await confirm(nurse, list('01.12.2026 09:30'), later.digest, 'csv')).status, 200)
      const [correction] = (await entries(unit)).slice(-1)
      assert.notEqual(correction?.corrects, undefined)
    })
  })

test('given a list whose identities were lost after its entries, when it is confirmed again, then they are kept; another is never laid over them', async () => {
  await using unit = await SignedUnit.open(sqliteService, { NILGROWTH_IDENTITY_KEY_FILE: join(folder, 'lost') })
  const people = await caseOfIdentities(unit)
  const { nurse, surgeon } = people
  const text = message('S12', '20261130050000')
  const first = await look(nurse, text)
  assert.equal((await confirm(nurse, text, first.digest)).status, 200)
  await keepsIdentities(people)
  const again = await look(nurse, text)
  assert.equal(again.rows[0]?.act, 'same')
  assert.equal(((await confirm(nurse, text, again.digest)).body as ListImportAnswer).identitiesKept, 1)
  assert.equal(((await confirm(nurse, text, again.digest)).body as ListImportAnswer).identitiesKept, 0, 'once')

  const id = first.rows[0]?.case ?? ''
  const other = message('S13', '20261130052000', { start: '202612011000' }).replace('H-5512', 'H-9999')
  const [refused] = (await look(nurse, other)).rows
  assert.equal(refused?.act, 'cannot')
  assert.match(refused?.says[0] ?? '', /another patient under this number/)
  // The hospital number is put right by hand, so that the list is of somebody else than the one that is kept.
  const put = await nurse.ask('PUT', `/api/cases/${id}/identity`, { identity: { hospitalNumber: 'H-1' }, why: 'care' })
  assert.equal(put.status, 200, JSON.stringify(put.body))
  const moved = message('S13', '20261130053000', { start: '202612011000' })
  const answer = (await confirm(nurse, moved, (await look(nurse, moved)).digest)).body as ListImportAnswer
  assert.deepEqual([answer.rows[0]?.outcome, answer.identitiesKept, answer.identitiesLeftOut], ['kept', 0, 1])
  assert.match(answer.rows[0]?.says.join() ?? '', /somebody else is kept/)
  const seen = await surgeon.ask('POST', `/api/cases/${id}/identity/see`, { why: 'care' })
  assert.equal((seen.body as { identity: { hospitalNumber: string } }).identity.hospitalNumber, 'H-1')
})

test('nilgrowth list read: shows, writes nothing, and records what was shown once it is confirmed', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  await caseOfIdentities(unit)
  const file = join(folder, 'list.hl7')
  writeFileSync(file, message('S12', '20261130050000'))
  const run = async (...args: readonly string[]) => {
    let out = ''
    let err = ''
    const stdin = (async function* () {})()
    const io = { stdin, stdout: { write: (t: string) => (out += t) }, stderr: { write: (t: string) => (err += t) } }
    const code = await runMain(['list', 'read', file, '--data', unit.service.file, ...args], io)
    return { code, out, err }
  }
  const shown = await run()
  assert.equal(shown.code, 0, shown.err)
  assert.match(
    shown.out,
    /^line 1: book F-1001\^KEEP case:l-[0-9a-f]{12} 2026-12-01T08:30:00\.000Z Theatre 1, Cholecystectomy/,
  )
  assert.match(shown.out, /1 to record\. Nothing was written\. Who the patient is, in 1, is left out\./)
  const digest = /--confirm ([0-9a-f]{16})/.exec(shown.out)?.[1] ?? assert.fail(shown.out)
  assert.equal((await run('--confirm', 'other', '--by', 'person:nora')).code, 3)
  const done = await run('--confirm', digest, '--by', 'person:nora')
  assert.match(done.out, /^line 1: book case:l-[0-9a-f]{12} kept/)
  assert.match(done.out, /left out of 1/)
  assert.equal(done.code, 0, done.err)
  assert.match((await run()).out, /^line 1: same/)
})
