import assert from 'node:assert/strict'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import { SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { captured } from './captured.suite.ts'
import { runIdentity } from './identity.ts'

/* The command asks what the service asks. All patients are invented. */

const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-identity-'))
after(() => rmSync(folder, { recursive: true }))
const file = join(folder, 'unit.sqlite')
const keep = ['keep', 'c-1', '--why', 'care']

async function ran(args: readonly string[], data: string, input = '') {
  const { io, out, err } = captured(input)
  const code = await runIdentity([...args, '--data', data], io)
  return { code, out: out(), err: err() }
}

/** One case on record, in a unit whose policy is as it is when it is opened. */
before(async () => {
  const booked = { patient: 'P-0001', procedure: 'Operation', theatre: 'Theatre 1', surgeon: 'person:ann' } as const
  const plannedAt = '2099-03-02T08:00:00.000Z'
  await using journal = await openJournal({
    at: { kind: 'sqlite', file },
    road: theRoad,
    now: () => instant(Date.now()),
  })
  for (const [index, [kind, body, by]] of [
    ['unit-opened', { unit: 'unit:unit', name: 'Unit', demonstration: false, timeZone: 'UTC' }, 'person:nilgrowth'],
    ['person-registered', { person: 'person:ann', name: 'Ann', roles: ['manager', 'theatre'] }, 'person:nilgrowth'],
    ['case-booked', { case: 'case:c-1', ...booked, plannedAt, implantPlanned: false }, 'person:ann'],
  ].entries()) {
    const id = `019d0000-0000-7000-8000-00000000000${index + 1}`
    const sent = { id, site: 'unit', kind, happenedAt: '2026-11-20T09:00:00.000Z', by, workstation: 'desk', body }
    // One after the other: each goes by what was kept before it.
    // oxlint-disable-next-line no-await-in-loop
    const outcome = await journal.append(SentEntry.parse(sent))
    assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
  }
})

test('given a unit that keeps no names, when one is to be kept by command, then it is refused as by the service', async () => {
  const refused = await ran(keep, file, '{"name":"Ada Kowalczyk-Invented"}')
  assert.equal(refused.code, 1)
  assert.match(refused.err, /This unit does not keep who its patients are\. .*keep-identities.* Nothing was written\./)
  const shown = await ran(['show', 'c-1', '--why', 'care'], file)
  assert.match(shown.err, /no identity is kept for case:c-1/)
})

test('given a path where no record is, then every act is refused, and none is made there', async () => {
  const none = join(folder, 'mistyped.sqlite')
  for (const args of [['log'], ['show', 'c-1', '--why', 'care'], keep, ['erase', 'c-1', '--why', 'care']]) {
    // oxlint-disable-next-line no-await-in-loop: one command after the other
    const { code, err } = await ran(args, none, '{"name":"Ada Kowalczyk-Invented"}')
    assert.equal(code, 1, args.join(' '))
    assert.match(err, /--data: wanted the file of a record, current value is .*mistyped.sqlite", which is not there/)
    assert.equal(existsSync(none), false, args.join(' '))
  }
})
