import assert from 'node:assert/strict'
import { test } from 'node:test'
import { runMain } from '#cli/main.ts'
import { Instant } from '#road/instant.ts'
import { lotOfImplant } from '#road/operating/implant.ts'
import type { ScanAnswer } from '#road/scanning/scan-answer.ts'
import { runService } from '../support/running-service.ts'
import { at, openUnit, present, record } from './hand.ts'

const di = '09506000134352'
const lot = lotOfImplant({ di, lot: 'L7' })

test('which patients have lot L7: from the code at the case to the trace of the lot, by API and by command', async () => {
  await using service = await runService({ now: () => Instant.parse(present) })
  await openUnit(service)
  const moment = (clock: string) => Instant.parse(at(clock))
  for (const [key, expiresOn] of [
    ['one', '2027-01-31'],
    ['two', '2026-06-09'],
  ] as const) {
    const id = `case:${key}` as const
    // oxlint-disable-next-line no-await-in-loop: one case after the other
    const booked = await record(service, 'case-booked', '07:00', {
      case: id,
      patient: `P-${key}`,
      procedure: 'Hernia repair',
      theatre: '1',
      plannedAt: moment('08:00'),
      surgeon: 'person:ada',
      implantPlanned: true,
    })
    assert.equal(booked.status, 201, JSON.stringify(booked.body))
    // oxlint-disable-next-line no-await-in-loop: one case after the other
    const kept = await record(service, 'case-recorded', '10:00', {
      case: id,
      startedAt: moment('08:00'),
      endedAt: moment('09:00'),
      woundClass: 'I',
      surgeon: 'person:ada',
      implant: { description: 'Mesh 10 x 15', codes: [{ di, lot: 'L7', expiresOn }] },
      antibiotic: null,
    })
    assert.equal(kept.status, 201, service.log.join())
    const rules = (kept.body as { findings: { rule: string }[] }).findings.map(({ rule }) => rule)
    // A fact is kept and alarmed.
    assert.equal(rules.includes('implant-in-date'), key === 'two', rules.join())
  }
  const scan = (await service.ask('GET', `/api/scan?code=(01)${di}(10)L7`)).body as ScanAnswer
  assert.deepEqual(
    scan.found.map(({ subject, exact }) => [subject, exact]),
    [[lot, true]],
  )
  const { nodes } = (await service.ask('GET', `/api/trace/${lot}?direction=forward`)).body as {
    nodes: { subject: string }[]
  }
  const cases = nodes.map(({ subject }) => subject).filter((subject) => subject.startsWith('case:'))
  assert.deepEqual(cases.toSorted(), ['case:one', 'case:two'])
  const back = (await service.ask('GET', '/api/trace/case:one?direction=back')).body as { nodes: { subject: string }[] }
  assert.ok(back.nodes.some(({ subject }) => subject === lot))

  let out = ''
  const io = {
    stdin: (async function* () {})(),
    stdout: { write: (text: string) => (out += text) },
    stderr: { write: () => undefined },
  }
  assert.equal(await runMain(['trace', String(lot), '--direction', 'forward', '--data', service.file], io), 0)
  assert.match(out, /case:one/)
  assert.match(out, /case:two/)
})
