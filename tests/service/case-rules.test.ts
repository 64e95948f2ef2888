import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { captured } from '#cli/captured.suite.ts'
import { runMain } from '#cli/main.ts'
import type { Finding } from '#road/finding.ts'
import { Instant, instant } from '#road/instant.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { at, entryOf, openUnit, present, record } from './hand.ts'

/*
 * What the rules say of an operation, by the API and by `nilgrowth judge` on the same record. The windows of prophylaxis are
 * those of the policy with their sources; where sources conflict, the policy chooses.
 */

let service: RunningService

before(async () => {
  service = await runService({ now: () => instant(Date.parse(present)) })
  await openUnit(service)
  for (const [key, hour] of [
    ['clean', '12:30'],
    ['dirty', '12:31'],
  ] as const) {
    const booked = await record(service, 'case-booked', hour, {
      case: `case:${key}`,
      patient: `P-${key}`,
      procedure: 'Ventral hernia repair',
      theatre: 'Theatre 1',
      plannedAt: Instant.parse(at('13:00')),
      surgeon: 'person:ada',
      implantPlanned: false,
    })
    assert.equal(booked.status, 201, JSON.stringify(booked.body))
  }
})
after(() => service.close())

const operation = (
  more: Partial<Parameters<typeof entryOf<'case-recorded'>>[2]> = {},
): ReturnType<typeof entryOf<'case-recorded'>> =>
  entryOf('case-recorded', '15:00', {
    case: 'case:clean',
    startedAt: Instant.parse(at('13:10')),
    endedAt: Instant.parse(at('14:20')),
    woundClass: 'I',
    surgeon: 'person:ada',
    implant: null,
    antibiotic: null,
    ...more,
  })

/** What both say, which must be the same: rule, weight and what was measured. */
async function findingsOf(entry: object): Promise<readonly string[]> {
  const { body } = await service.ask('POST', '/api/entries/judge', entry)
  const byApi = (body as { findings: readonly Finding[] }).findings
  const { io, out, err } = captured(JSON.stringify(entry))
  await runMain(['judge', '--data', service.file], io)
  const { findings } = JSON.parse(out()) as { findings: readonly Finding[] }
  assert.deepEqual(findings, byApi, err())
  return byApi.map(({ rule, weight, measured }) => [rule, weight, measured ?? ''].join(' '))
}

const given = (drug: string, clock: string) => ({ antibiotic: { drug, startedAt: Instant.parse(at(clock)) } })

for (const [name, antibiotic, wanted] of [
  ['in its window', given('Cefazolin', '12:25'), []],
  ['too early', given('Cefazolin', '11:40'), ['antibiotic-in-time caution 90 min before']],
  ['slow drug, longer window', given('Vancomycin', '11:40'), []],
  ['after the incision', given('Cefazolin', '13:20'), ['antibiotic-in-time caution 10 min after']],
] as const)
  test(`given a dose ${name}, when the operation is judged, then API and command line say the same`, async () => {
    assert.deepEqual(
      (await findingsOf(operation(antibiotic))).filter((each) => each.startsWith('antibiotic')),
      wanted,
    )
  })

test('given the window of the policy is changed, when the same dose is judged, then it is judged by the new window', async () => {
  const changed = await record(service, 'limit-changed', '16:00', {
    policy: 'policy:unit',
    limit: 'antibiotic-within-minutes',
    value: 120,
    reason: 'Our own protocol follows the longer window',
  })
  assert.equal(changed.status, 201, JSON.stringify(changed.body))
  assert.deepEqual(
    (await findingsOf(operation(given('Cefazolin', '11:40')))).filter((each) => each.startsWith('antibiotic')),
    [],
  )
})

test('given an implant in a contaminated wound, when nobody decided it, then it stays under the case until someone does', async () => {
  const implanted = operation({ case: 'case:dirty', woundClass: 'III', implant: { description: 'Mesh' } })
  const ofImplant = async () => (await findingsOf(implanted)).filter((each) => each.startsWith('implant-only-decided'))
  assert.equal((await ofImplant()).length, 1)
  const decided = await record(service, 'implant-decided', '15:30', {
    case: 'case:dirty',
    outcome: 'implant',
    why: 'No other repair holds here',
  })
  assert.equal(decided.status, 201, JSON.stringify(decided.body))
  assert.deepEqual(await ofImplant(), [])
})
