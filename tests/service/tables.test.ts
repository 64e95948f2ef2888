import assert from 'node:assert/strict'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, describe, test } from 'node:test'
import { readSheet } from 'read-excel-file/node'
import { runMain } from '#cli/main.ts'
import type { ApiProblem, TableRow } from '#service/api-types.ts'
import { tables } from '#service/tables/tables.ts'
import { at, openUnit, record } from './hand.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'

/* Every table as CSV, as a sheet, and as JSON, on both engines. The sheet is read by somebody else's reader of the format. */

const postgres = await postgresService()
const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-tables-'))
after(async () => {
  await postgres[Symbol.asyncDispose]()
  rmSync(folder, { recursive: true })
})

/** A unit with a machine, a load whose name is a formula, an indicator, and a case. */
async function furnished(environment: Readonly<Record<string, string>>): Promise<RunningService> {
  const service = await runService({ environment })
  await openUnit(service)
  const kept = async (...entry: readonly Promise<{ readonly status: number; readonly body: unknown }>[]) => {
    for (const each of await Promise.all(entry)) assert.equal(each.status, 201, JSON.stringify(each.body))
  }
  await kept(
    record(service, 'machine-registered', '01:00', {
      machine: 'machine:s1',
      name: '=HYPERLINK("x")',
      type: 'steamSteriliser',
      airRemoval: 'gravity',
      chamberLitres: 60.5,
      programs: ['porous-134'],
    }),
  )
  await kept(
    record(service, 'load-built', '07:00', {
      load: 'load:l1',
      machine: 'machine:s1',
      program: 'porous-134',
      purpose: 'biologicalTest',
      rounds: [],
    }),
  )
  await kept(
    record(service, 'biological-read', '17:00', {
      load: 'load:l1',
      lot: 'B-7',
      result: 'growth',
      control: { lot: 'B-7', result: 'growth' },
      incubatedHours: 9.5,
    }),
  )
  await kept(
    record(service, 'case-booked', '06:00', {
      case: 'case:c1',
      patient: 'P-1',
      procedure: 'Hernia, "mesh"',
      theatre: 'Theatre 1',
      plannedAt: at('12:00') as never,
      surgeon: 'person:ada',
      implantPlanned: true,
    }),
  )
  return service
}

async function bytesOf(service: RunningService, path: string): Promise<Buffer> {
  const response = await fetch(`${service.url}${path}`)
  assert.equal(response.status, 200, path)
  return Buffer.from(await response.arrayBuffer())
}
const textOf = async (service: RunningService, path: string): Promise<string> =>
  (await bytesOf(service, path)).toString()

for (const engine of [sqliteService, postgres])
  describe(`tables on ${engine.name}`, () => {
    test('given a record, then each table has its columns in every form, and what a cell is stays what it is', async () => {
      await using service = await furnished(await engine.newRecord())
      const listed = (await service.ask('GET', '/api/tables')).body as TableRow[]
      assert.deepEqual(
        listed.map(({ name }) => name),
        tables.map(({ name }) => name),
      )
      for (const { name, columns, periodBy } of listed) {
        const names = columns.map((column) => column.name)
        assert.equal(new Set(names).size, names.length, name)
        assert.ok(
          columns.some((column) => column.name === periodBy && column.type === 'moment'),
          name,
        )
        assert.ok(
          columns.every(({ name: each, type }) => type !== 'moment' || each.endsWith('_utc')),
          name,
        )
        const csv = await textOf(service, `/api/tables/${name}`)
        assert.equal(csv.split('\r\n')[0], names.join(','), name)
        const [head] = await readSheet(await bytesOf(service, `/api/tables/${name}?as=xlsx`))
        assert.deepEqual(head, names, name)
        const [line = ''] = (await textOf(service, `/api/tables/${name}?as=jsonl`)).split('\n')
        if (line !== '') assert.deepEqual(Object.keys(JSON.parse(line) as object), names, name)
      }
    })

    test('given numbers, moments and a name that is a formula, then the sheet has numbers, dates and text, and CSV no formula', async () => {
      await using service = await furnished(await engine.newRecord())
      const column = (sheet: readonly (readonly unknown[])[], name: string) => sheet[1]?.[sheet[0]?.indexOf(name) ?? -1]
      const machines = await readSheet(await bytesOf(service, '/api/tables/machines?as=xlsx'))
      assert.equal(column(machines, 'chamber_l'), 60.5)
      assert.equal(column(machines, 'name'), '=HYPERLINK("x")')
      const indicators = await readSheet(await bytesOf(service, '/api/tables/indicators?as=xlsx'))
      const read = column(indicators, 'read_utc')
      assert.ok(read instanceof Date)
      // The format keeps a moment as a fraction of days: it comes back to the millisecond at best.
      assert.ok(Math.abs(read.getTime() - Date.parse(at('17:00'))) <= 1)
      assert.equal(column(indicators, 'incubated_h'), 9.5)
      const cases = await readSheet(await bytesOf(service, '/api/tables/cases?as=xlsx'))
      assert.equal(column(cases, 'implant'), true)
      assert.match(await textOf(service, '/api/tables/machines'), /,"'=HYPERLINK\(""x""\)",/)
      assert.match(await textOf(service, '/api/tables/cases'), /,P-1,"Hernia, ""mesh""",/)
      const [indicator] = (await textOf(service, '/api/tables/indicators?as=jsonl')).split('\n')
      assert.deepEqual(JSON.parse(indicator ?? ''), {
        load: 'load:l1',
        indicator: 'biological',
        read_utc: at('17:00'),
        read_by: 'person:ada',
        result: 'growth',
        chemical_where: null,
        chemical_type: null,
        biological_lot: 'B-7',
        biological_control: 'growth',
        incubated_h: 9.5,
      })
    })

    test('given a period, then only what lies in it; and what cannot be asked is told', async () => {
      await using service = await furnished(await engine.newRecord())
      const rows = async (query: string) =>
        (await textOf(service, `/api/tables/loads?${query}`)).trim().split('\r\n').length - 1
      assert.deepEqual(
        await Promise.all(['', 'from=2026-06-10&to=2026-06-10', 'from=2026-06-11', 'to=2026-06-09'].map(rows)),
        [1, 1, 0, 0],
      )
      const unknown = await service.ask('GET', '/api/tables/secrets')
      assert.deepEqual([unknown.status, (unknown.body as ApiProblem).problems?.[0]?.field], [404, 'name'])
      assert.equal((await service.ask('GET', '/api/tables/loads?from=june')).status, 422)
      assert.equal((await service.ask('GET', '/api/tables/loads?as=pdf')).status, 422)
    })
  })

test('nilgrowth export table: lists the tables, and writes one in each form', async () => {
  await using service = await furnished({})
  const run = async (...args: readonly string[]) => {
    let out = ''
    const stdin = (async function* () {})()
    const io = { stdin, stdout: { write: (t: string) => (out += t) }, stderr: { write: (t: string) => (out += t) } }
    return { code: await runMain(['export', 'table', ...args, '--data', service.file], io), out }
  }
  assert.equal((await run()).out.trim().split('\n').length, tables.length)
  assert.equal((await run('loads')).out, await textOf(service, '/api/tables/loads'))
  assert.equal((await run('loads', '--as', 'jsonl')).out, await textOf(service, '/api/tables/loads?as=jsonl'))
  const [csv, xlsx] = [join(folder, 'loads.csv'), join(folder, 'loads.xlsx')]
  assert.equal((await run('loads', '--out', csv)).code, 0)
  assert.equal(readFileSync(csv, 'utf8'), await textOf(service, '/api/tables/loads'))
  assert.equal((await run('loads', '--as', 'xlsx', '--out', xlsx)).code, 0)
  assert.equal((await readSheet(xlsx)).length, 2)
  assert.deepEqual([(await run('secrets')).code, (await run('loads', '--as', 'pdf')).code], [2, 2])
})
