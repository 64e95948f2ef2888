import assert from 'node:assert/strict'
import { after, describe, test } from 'node:test'
import * as fc from 'fast-check'
import { AttachmentDigest } from '#road/attachment.ts'
import { SentEntry } from '#road/entry.ts'
import { parseSubject, subjectKinds } from '#road/subject.ts'
import { runMain } from '#cli/main.ts'
import { fhirId, subjectOfFhirId } from '#service/fhir/fhir-id.ts'
import { type FhirResource, fhirTypes } from '#service/fhir/resource.ts'
import { assertFhir, looked } from '../support/fhir-validator.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { at, entryOf, furnishOneSet, openUnit } from './hand.ts'

/* The record in HL7 FHIR R4 (4.0.1), on both engines, held against the published definitions by somebody else's validator. */

const postgres = await postgresService()
after(() => postgres[Symbol.asyncDispose]())

interface Bundle {
  readonly entry?: readonly { readonly fullUrl: string; readonly resource: FhirResource }[]
  readonly link?: readonly { readonly relation: string; readonly url: string }[]
}

const report = {
  verdict: 'notMet',
  holdingSeconds: 95,
  equilibrationSeconds: null,
  fMinutes: 12.5,
  fReferenceC: 121.1,
  zK: 10,
  minC: 133.6,
  maxC: 135.2,
  maxSpreadK: null,
  criteria: [],
  findings: [],
} as const

/** One of everything: also an underscore in a key, a correction, a wound that is none, and a figure that is missing. */
async function furnished(environment: Readonly<Record<string, string>>): Promise<RunningService> {
  const service = await runService({ environment })
  try {
    await furnish(service)
    return service
  } catch (error) {
    await service.close()
    throw error
  }
}

async function furnish(service: RunningService): Promise<void> {
  await openUnit(service)
  await furnishOneSet(service)
  // Past the service's own reading of a log, which has tests of its own.
  const keep = async (...[kind, clock, body, sending]: Parameters<typeof entryOf>): Promise<void> => {
    const outcome = await service.journal.append(SentEntry.parse(entryOf(kind, clock, body, sending)))
    assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
  }
  await keep('item-registered', '01:03', { item: 'item:i_1', device: 'device:d', serial: 'SN 7' })
  await keep('machine-registered', '01:04', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 60,
    programs: ['porous-134'],
  })
  const log = AttachmentDigest.parse(await service.journal.attach(Buffer.from('a log'), 'text/csv'))
  const load = 'load:l1'
  await keep('load-built', '07:00', {
    load,
    machine: 'machine:s1',
    program: 'porous-134',
    purpose: 'goods',
    rounds: ['round:a'],
  })
  await keep('cycle-logged', '08:00', {
    load,
    program: 'porous-134',
    startedAt: at('07:10') as never,
    endedAt: at('07:55') as never,
    log,
    report: report as never,
  })
  await keep('chemical-read', '08:01', { load, where: 'insidePack', type: '5', result: 'passed' })
  await keep('biological-read', '17:00', { load, lot: 'B', result: 'growth', control: null, incubatedHours: 9 })
  for (const key of ['c1', 'c2'])
    await keep('case-booked', '06:00', {
      case: `case:${key}`,
      patient: `P-${key}`,
      procedure: 'Hernia repair',
      theatre: 'Theatre 1',
      plannedAt: at('09:00') as never,
      surgeon: 'person:ada',
      implantPlanned: false,
    })
  await keep('pack-opened', '09:00', {
    round: 'round:a',
    case: 'case:c1',
    outsideIndicator: 'changed',
    insideIndicator: 'changed',
    condition: 'intact',
  })
  await keep('case-recorded', '10:30', {
    case: 'case:c1',
    startedAt: at('09:05') as never,
    endedAt: at('10:10') as never,
    woundClass: 'I',
    surgeon: 'person:ada',
    implant: null,
    antibiotic: null,
  })
  for (const wound of ['wound:w1', 'wound:w2'] as const)
    await keep('wound-noted', '12:00', {
      wound,
      case: 'case:c1',
      onsetAt: at('11:00') as never,
      depth: 'superficial',
      signs: 'red',
      culture: 'notTaken',
      acidFast: 'notDone',
    })
}

async function get(
  service: RunningService,
  path: string,
): Promise<{ readonly status: number; readonly body: unknown }> {
  const said = await service.ask('GET', path)
  assert.equal(said.type, 'application/fhir+json; charset=utf-8', path)
  return said
}

async function search(service: RunningService, query: string): Promise<FhirResource[]> {
  const found: FhirResource[] = []
  let path: string | undefined = `/fhir/R4/${query}`
  while (path !== undefined) {
    // oxlint-disable-next-line no-await-in-loop -- a page names the next one
    const { status, body } = await get(service, path)
    assert.equal(status, 200, JSON.stringify(body))
    assertFhir(body)
    const { entry = [], link = [] } = body as Bundle
    found.push(...entry.map(({ resource }) => resource))
    const next = link.find(({ relation }) => relation === 'next')
    path = next?.url.slice(service.url.length)
  }
  return found
}

const idsOf = (resources: readonly FhirResource[]): readonly string[] => resources.map(({ id }) => id)

for (const engine of [sqliteService, postgres])
  describe(`FHIR on ${engine.name}`, () => {
    test('given a record, then every resource is as FHIR R4 wants it, read by its id, and the same in pages, Bundle and NDJSON', async () => {
      await using service = await furnished(await engine.newRecord())
      const all: FhirResource[] = []
      for (const type of fhirTypes) {
        const whole = await search(service, `${type}?_count=200`)
        assert.ok(whole.length > 0, type)
        assert.deepEqual(await search(service, `${type}?_count=1`), whole, `${type} in pages of one`)
        for (const each of whole) {
          assertFhir(each)
          assert.match(each.id, /^[A-Za-z0-9.-]{1,64}$/)
          assert.deepEqual((await get(service, `/fhir/R4/${type}/${each.id}`)).body, each)
        }
        all.push(...whole)
      }
      const bundle = await (await fetch(`${service.url}/api/fhir`)).json()
      assertFhir(bundle)
      assert.deepEqual(
        (bundle as Bundle).entry?.map(({ resource }) => resource),
        all,
      )
      const lines = (await (await fetch(`${service.url}/api/fhir?as=ndjson`)).text()).trim().split('\n')
      assert.deepEqual(
        lines.map((line) => JSON.parse(line) as unknown),
        all,
      )
      assert.doesNotMatch(JSON.stringify(all), /:null|:\[\]|:\{\}/)
    })

    test('given what is known, then it is what the resources say', async () => {
      await using service = await furnished(await engine.newRecord())
      const [item] = await search(service, 'Device?_id=item-i.u1')
      assert.deepEqual(
        [item?.['serialNumber'], item?.['definition']],
        ['SN 7', { reference: 'DeviceDefinition/device-d' }],
      )
      const observations = await search(service, 'Observation?subject=Device/machine-s1')
      const [cycle] = observations
      const components = cycle?.['component'] as {
        valueQuantity?: { value: number; code: string }
        dataAbsentReason?: object
      }[]
      assert.deepEqual(
        components.map(({ valueQuantity, dataAbsentReason }) =>
          dataAbsentReason === undefined ? `${valueQuantity?.value} ${valueQuantity?.code}` : 'absent',
        ),
        ['95 s', 'absent', '12.5 min', '133.6 Cel', '135.2 Cel', 'absent'],
      )
      assert.equal(observations.length, 3)
      assert.deepEqual(idsOf(await search(service, 'Procedure?patient=P-c1')), ['case-c1'])
      assert.deepEqual(idsOf(await search(service, 'Procedure?subject=Patient/P-c2')), ['case-c2'])
      assert.deepEqual(idsOf(await search(service, 'DeviceUseStatement?patient=P-c1')), ['round-a'])
      assert.deepEqual(idsOf(await search(service, 'Condition?patient=P-c2')), [])
      const [provenance] = await search(service, 'Provenance?_count=1')
      const entry = await service.journal.read('unit' as never).entry(provenance?.id as never)
      assert.match(JSON.stringify(provenance), new RegExp(entry?.hash ?? 'no entry'))
      const last = (await search(service, 'Procedure?_id=case-c1'))[0]?.meta.lastUpdated ?? ''
      assert.deepEqual(idsOf(await search(service, `Procedure?_id=case-c1&_lastUpdated=ge${last}`)), ['case-c1'])
      assert.deepEqual(idsOf(await search(service, `Procedure?_id=case-c1&_lastUpdated=gt${last}`)), [])
      assert.deepEqual(idsOf(await search(service, 'Procedure?_lastUpdated=lt2001-01-01')), [])
    })

    test('given what cannot be answered, then an OperationOutcome says why', async () => {
      await using service = await furnished(await engine.newRecord())
      for (const [path, status, code] of [
        ['Patient', 404, 'not-found'],
        ['Device/item-none', 404, 'not-found'],
        ['Device/device-d', 404, 'not-found'],
        ['Observation/01a211e0-0000-7000-8000-000000000001', 404, 'not-found'],
        ['Device?colour=red', 422, 'invalid'],
        ['Device?patient=P-c1', 422, 'invalid'],
        ['Device?_lastUpdated=yesterday', 422, 'invalid'],
        ['Device?_cursor=abc', 422, 'invalid'],
        ['Device?_format=xml', 422, 'invalid'],
      ] as const) {
        const said = await get(service, `/fhir/R4/${path}`)
        assertFhir(said.body)
        const { resourceType, issue } = said.body as { resourceType: string; issue: { code: string }[] }
        assert.deepEqual([said.status, resourceType, issue[0]?.code], [status, 'OperationOutcome', code], path)
      }
      const { body } = await get(service, '/fhir/R4/metadata')
      assertFhir(body)
    })
  })

test('FHIR: whoever has not signed in is told so by an OperationOutcome, and may see what the service can do', async () => {
  await using service = await runService({ environment: { NILGROWTH_SIGN_IN: 'required' } })
  for (const path of ['Device', 'Device/item-x']) {
    const said = await get(service, `/fhir/R4/${path}`)
    assertFhir(said.body)
    assert.equal(said.status, 401)
  }
  assert.equal((await service.ask('GET', '/api/fhir')).status, 401)
  assert.equal((await get(service, '/fhir/R4/metadata')).status, 200)
})

test('nilgrowth export fhir: the same as the service gives', async () => {
  await using service = await furnished({})
  let out = ''
  const stdin = (async function* () {})()
  const io = { stdin, stdout: { write: (t: string) => (out += t) }, stderr: { write: (t: string) => (out += t) } }
  const run = (...args: readonly string[]) => runMain(['export', 'fhir', ...args, '--data', service.file], io)
  assert.equal(await run('--as', 'ndjson'), 0)
  assert.equal(out, await (await fetch(`${service.url}/api/fhir?as=ndjson`)).text())
  out = ''
  assert.equal(await run('Condition'), 0)
  assertFhir(JSON.parse(out))
  assert.equal((JSON.parse(out) as Bundle).entry?.length, 2)
  assert.deepEqual([await run('Patient'), await run('--as', 'xml')], [2, 2])
})

describe('the validator catches', () => {
  const observation = { resourceType: 'Observation', id: 'a', status: 'final', code: { text: 'x' } }
  test('nothing in what is sound', () => assertFhir(observation))
  for (const [title, value] of [
    ['what must be there and is not', { ...observation, code: undefined }],
    ['an element that there is not', { ...observation, colour: 'red' }],
    ['a text in the place of a number', { ...observation, valueQuantity: { value: 'much' } }],
    ['one in the place of a list', { ...observation, performer: { display: 'x' } }],
    ['an id with an underscore', { ...observation, id: 'a_b' }],
    ['a time that is none', { ...observation, effectiveDateTime: 'yesterday' }],
    ['a code outside its set', { ...observation, status: 'done' }],
    [
      'a code of another system',
      {
        resourceType: 'Condition',
        subject: { display: 'x' },
        verificationStatus: { coding: [{ system: 'http://x.invalid', code: 'confirmed' }] },
      },
    ],
    [
      'the same within a Bundle',
      { resourceType: 'Bundle', type: 'collection', entry: [{ resource: { ...observation, status: 'done' } }] },
    ],
  ] as const)
    test(title, () => assert.throws(() => assertFhir(JSON.parse(JSON.stringify(value)))))
  test('codes: it has looked at some', () => assert.ok(looked.codes > 200, `${looked.codes}`))
})

test('fhirId: every subject has a legal id of its own, and is found by it again', () => {
  const key = fc.stringMatching(/^[A-Za-z0-9](?:[A-Za-z0-9._-]{0,62}[A-Za-z0-9])?$/)
  fc.assert(
    fc.property(fc.constantFrom(...subjectKinds), key, key, (kind, one, other) => {
      const [a, b] = [parseSubject(`${kind}:${one}`), parseSubject(`${kind}:${other}`)]
      assert.ok(a !== undefined && b !== undefined)
      assert.match(fhirId(a), /^[A-Za-z0-9.-]{1,64}$/)
      assert.equal(fhirId(a) === fhirId(b), a === b)
      const back = subjectOfFhirId(fhirId(a))
      assert.ok(typeof back === 'object' ? back.hashed === kind : back === a)
    }),
  )
})
