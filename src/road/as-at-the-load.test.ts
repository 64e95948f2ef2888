import assert from 'node:assert/strict'
import { test } from 'node:test'
import { MemoryRecord } from '../../tests/support/memory-record.ts'
import type { EntryId } from './entry.ts'
import type { Bodies, KindName } from './kinds.ts'
import { at, entered, findingsOf, knownAs, step } from './rule-harness.ts'
import type { AnyRule } from './rule.ts'
import { releaseFromWorkingMachine } from './sterilising/rules/release-from-working-machine.ts'
import { releaseAfterAirRemovalTest } from './sterilising/rules/release-after-air-removal-test.ts'
import { loadOnWorkingMachine } from './sterilising/rules/load-on-working-machine.ts'
import { leakTestDue } from './sterilising/rules/leak-test-due.ts'
import { washerKnown } from './cleaning/rules/washer-known.ts'

/*
 * A load is judged by what its machine was when the load ran: in service or not, with dynamic removal of air or not,
 * whatever became of the machine since.
 */

type Registration = Bodies['machine-registered']

const steriliser: Registration = {
  machine: 'machine:s',
  name: 'S',
  type: 'steamSteriliser',
  airRemoval: 'dynamic',
  chamberLitres: 300,
  programs: ['134'],
}

/** A record of one machine, its entries given as clock, kind and body; the number of the one that an entry corrects. */
function recordOf(entries: readonly Said[]): MemoryRecord {
  const record = new MemoryRecord()
  for (const [place, [clock, kind, body, corrects]] of entries.entries()) {
    const entry = entered(kind, body as never, {
      at: at(clock),
      ...(corrects === undefined ? {} : { corrects: idOf(corrects) }),
    })
    record.keep({ ...entry, id: idOf(place + 1) })
  }
  return record
}

type Said = readonly [clock: string, kind: KindName, body: object, corrects?: number]

function idOf(place: number): EntryId {
  return `019d0000-0000-7000-8000-0000000000${String(place).padStart(2, '0')}` as EntryId
}

async function machineOf(entries: readonly Said[]) {
  const machine = (await recordOf(entries).known(['machine:s'])).get('machine:s')
  assert.ok(machine)
  return machine
}

const registered: Said = ['05:00', 'machine-registered', steriliser]
const out = (clock: string): Said => [clock, 'machine-withdrawn', { machine: 'machine:s', why: 'it leaks' }]
const back = (clock: string): Said => [clock, 'machine-returned', { machine: 'machine:s', why: 'proven' }]
const again = (clock: string, changed: Partial<Registration>, corrects: number): Said => [
  clock,
  'machine-registered',
  { ...steriliser, ...changed },
  corrects,
]

/** What a rule says of the release of a load that ran between two clocks. */
async function release(rule: AnyRule, entries: readonly Said[], [from, to]: readonly [string, string]) {
  const load = knownAs('load', 'load:1', {
    machine: 'machine:s',
    program: '134',
    rounds: ['round:a'],
    builtAt: at(from),
    cycle: step(to, { startedAt: at(from), endedAt: at(to) } as never),
  })
  const known = [await machineOf(entries), load, knownAs('round', 'round:a')]
  const packs = [{ round: 'round:a' as const, outcome: 'released' as const }]
  return findingsOf(rule, { known }, entered('load-decided', { load: 'load:1', packs }, { at: at('20:00') })).map(
    ({ weight }) => weight,
  )
}

test('what ran while its steriliser was out of service is not released once it is back', async () => {
  const stopped = [registered, out('09:00'), back('12:00')]
  const of = (from: string, to: string) => release(releaseFromWorkingMachine, stopped, [from, to])
  assert.deepEqual(await of('10:00', '11:00'), ['stop'])
  // It began or ended while the steriliser was out.
  assert.deepEqual(await of('08:30', '09:00'), ['stop'])
  assert.deepEqual(await of('11:30', '12:30'), ['stop'])
  assert.deepEqual(await of('08:00', '08:50'), [])
  assert.deepEqual(await of('12:00', '12:50'), [])
})

test('of several stops each counts; a load before the last stop is only to be looked at', async () => {
  const twice = [registered, out('09:00'), out('09:30'), back('12:00'), out('15:00')]
  const of = (from: string, to: string) => release(releaseFromWorkingMachine, twice, [from, to])
  assert.deepEqual(await of('09:10', '09:20'), ['stop'])
  assert.deepEqual(await of('13:00', '14:00'), ['caution'])
  assert.deepEqual(await of('14:30', '15:30'), ['stop'])
  const lifted: Said[] = [
    registered,
    out('09:00'),
    back('12:00'),
    ['13:00', 'entry-withdrawn', { why: 'wrong one' }, 2],
  ]
  assert.deepEqual(await release(releaseFromWorkingMachine, lifted, ['10:00', '11:00']), [])
})

test('a load that is entered late is held against the service of its time', async () => {
  const machine = await machineOf([registered, out('09:00'), back('12:00'), out('15:00')])
  const built = (clock: string) =>
    findingsOf(
      loadOnWorkingMachine,
      { known: [machine] },
      entered(
        'load-built',
        { load: 'load:1', machine: 'machine:s', program: '134', purpose: 'goods', rounds: [] },
        { at: at(clock) },
      ),
    ).length
  assert.deepEqual(['08:00', '10:00', '13:00', '16:00'].map(built), [0, 1, 0, 1])
})

test('the air-removal test of a day is asked of what drew a vacuum on that day', async () => {
  const refitted = [
    ['05:00', 'machine-registered', { ...steriliser, airRemoval: 'gravity' }] as const,
    again('12:00', { airRemoval: 'dynamic' }, 1),
  ]
  const of = (entries: readonly Said[], from: string, to: string) =>
    release(releaseAfterAirRemovalTest, entries, [from, to])
  assert.deepEqual(await of(refitted, '10:00', '11:00'), [])
  assert.deepEqual(await of(refitted, '13:00', '14:00'), ['stop'])
  // And the other way: that it draws none any more does not release what it did not prove when it did.
  const plain = [registered, again('12:00', { airRemoval: 'gravity' }, 1)]
  assert.deepEqual(await of(plain, '10:00', '11:00'), ['stop'])
  assert.deepEqual(await of(plain, '13:00', '14:00'), [])
})

test('before it was registered a machine is taken as it was first; another type was a mistake from the beginning', async () => {
  const plain = [registered, again('12:00', { airRemoval: 'gravity' }, 1)]
  assert.deepEqual(await release(releaseAfterAirRemovalTest, plain, ['03:00', '04:00']), ['stop'])
  const mistaken = [
    ['05:00', 'machine-registered', { ...steriliser, type: 'dryHeatSteriliser', airRemoval: 'none' }] as const,
    again('12:00', {}, 1),
  ]
  assert.deepEqual(await release(releaseAfterAirRemovalTest, mistaken, ['10:00', '11:00']), ['stop'])
})

test('a leak test is due, and a washer is out of service, by the time of the entry', async () => {
  const gravity = await machineOf([registered, again('12:00', { airRemoval: 'gravity' }, 1)])
  const leak = (clock: string) =>
    findingsOf(
      leakTestDue,
      { known: [gravity] },
      entered(
        'load-built',
        { load: 'load:1', machine: 'machine:s', program: '134', purpose: 'goods', rounds: [] },
        { at: at(clock) },
      ),
    ).length
  assert.deepEqual(['10:00', '13:00'].map(leak), [1, 0])
  const washer = await machineOf([
    ['05:00', 'machine-registered', { ...steriliser, type: 'washer', airRemoval: 'none' }],
    out('09:00'),
    back('12:00'),
  ])
  const how = {
    kind: 'washer' as const,
    machine: 'machine:s' as const,
    program: '134',
    takenApart: true,
    a0Seconds: 600,
  }
  const wash = (clock: string) =>
    findingsOf(
      washerKnown,
      { known: [washer] },
      entered('wash-recorded', { wash: 'wash:1', rounds: ['round:a'], how }, { at: at(clock) }),
    ).length
  assert.deepEqual(['08:00', '10:00', '13:00'].map(wash), [0, 1, 0])
})
