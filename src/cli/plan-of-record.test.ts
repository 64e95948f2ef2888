import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, describe, test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import { SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { captured } from './captured.suite.ts'
import { runPlan } from './plan.ts'

const day = '2099-03-02'

/** A unit with two operations booked in one theatre, 60 and 45 min by their bookings. */
const entries = [
  ['unit-opened', { unit: 'unit:unit', name: 'Unit', demonstration: false, timeZone: 'UTC' }, 'person:nilgrowth'],
  ['person-registered', { person: 'person:ann', name: 'Ann', roles: ['manager'] }, 'person:nilgrowth'],
  ['case-booked', booking('c1', '08:00', 60), 'person:ann'],
  ['case-booked', booking('c2', '10:00', 45), 'person:ann'],
] as const

function booking(key: string, clock: string, minutes: number) {
  return {
    case: `case:${key}`,
    patient: `P-${key}`,
    procedure: 'Operation',
    category: 'diagnosticLaparoscopy',
    theatre: 'Theatre 1',
    plannedAt: `${day}T${clock}:00.000Z`,
    surgeon: 'person:ann',
    implantPlanned: false,
    forPlan: { minutes },
  }
}

describe('plans of a record', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-plan-'))
  const file = join(folder, 'unit.sqlite')
  before(async () => {
    const at = { kind: 'sqlite', file } as const
    await using journal = await openJournal({ at, road: theRoad, now: () => instant(Date.now()) })
    for (const [index, [kind, body, by]] of entries.entries()) {
      const id = `019d0000-0000-7000-8000-00000000000${index + 1}`
      const sent = { id, site: 'unit', kind, happenedAt: '2026-11-20T09:00:00.000Z', by, workstation: 'desk', body }
      // One after the other: each goes by what was kept before it.
      // oxlint-disable-next-line no-await-in-loop
      const outcome = await journal.append(SentEntry.parse(sent))
      assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
    }
  })
  after(() => rmSync(folder, { recursive: true }))

  async function ran(...args: string[]) {
    const { io, out, err } = captured()
    const code = await runPlan([...args, '--data', file, '--site', 'unit'], io)
    return { code, out: out(), err: err() }
  }

  test('plan day plans the booked operations of the day and says what is not known', async () => {
    const { code, out, err } = await ran('day', day, '--seconds', '1')
    assert.equal(code, 0, err)
    // From 08:00: 60 min, a turnover of 20 and 45 min are 125 min of a theatre.
    assert.match(out, /^Inversions 0, overtime 0 min, theatres occupied 125 min: optimal/)
    assert.match(out, /c1/)
    assert.match(out, /notEvaluable: c1: not evaluable: no sets on record for Operation\. Planned without sets\./)
    const json = await ran('day', day, '--seconds', '1', '--json')
    assert.partialDeepStrictEqual(JSON.parse(json.out), {
      day,
      plan: { status: 'optimal', objective: { occupied: 125 } },
    })
  })

  test('plan day with nothing booked ends with 4 and says so', async () => {
    const { code, out } = await ran('day', '2099-03-03')
    assert.equal(code, 4)
    assert.match(out, /No case waits to be planned on this day\./)
  })

  test('plan simulate runs the plan; without a spread on record it runs as it is written', async () => {
    const { code, out, err } = await ran(
      'simulate',
      day,
      '--json',
      '--runs',
      '150',
      '--seconds',
      '0.5',
      '--no-purchases',
    )
    assert.equal(code, 0, err)
    assert.partialDeepStrictEqual(JSON.parse(out), {
      day,
      status: 'optimal',
      withoutSpread: ['c1', 'c2'],
      simulated: {
        runs: 150,
        onTime: { share: 1, standardError: 0 },
        lateStarts: { mean: 0 },
        // 08:00 and 125 min: 10:05.
        ends: [{ theatre: 'Theatre 1', mean: 605, p90: 605 }],
      },
      savings: [],
    })
    const text = await ran('simulate', day, '--runs', '150', '--seconds', '0.5')
    assert.match(text.out, /^2099-03-02: the plan \(proven\) run 150 times\. Each figure with its standard error\.\n/)
    assert.match(text.out, /Theatre 1 ends at 10:05 on average, by 10:05 nine times in ten\n/)
    assert.match(text.out, /Run with what is planned, no spread on record: c1, c2\n/)
  })

  test('plan simulate refuses what the route refuses, and says when there is no plan to run', async () => {
    const rows: readonly (readonly [readonly string[], number, RegExp])[] = [
      [['soon'], 2, /^DATE: wanted a day such as 2026-11-26, current value is "soon"/],
      [[day, '--runs', '99'], 2, /^runs: wanted .*>= 100, current value is 99/],
      [[day, '--runs', 'many'], 2, /^runs: wanted .*, current value is "many"/],
    ]
    for (const [args, wanted, line] of rows) {
      // oxlint-disable-next-line no-await-in-loop
      const { code, err } = await ran('simulate', ...args)
      assert.equal(code, wanted)
      assert.match(err, line)
    }
    const empty = await ran('simulate', '2099-03-03')
    assert.deepEqual([empty.code, empty.out], [4, '2099-03-03: no plan to run.\n'])
  })
})
