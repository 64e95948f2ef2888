import assert from 'node:assert/strict'
import { test } from 'node:test'
import { MemoryRecord } from '../../tests/support/memory-record.ts'
import type { EntryId } from './entry.ts'
import type { Instant } from './instant.ts'
import type { Bodies, TypedSent } from './kinds.ts'
import { at } from './rule-harness.ts'
import { readInForceAt } from './sterilising/read-in-force.ts'

/* A cycle is read by the programmes and columns that its machine was registered with when it ran, whatever was changed since. */

type Body = Bodies['machine-registered']

const program = (from: number) => ({
  method: 'hydrogenPeroxide' as const,
  windows: [{ variable: 'temperatureC' as const, from, to: 60 }],
})
const column = (time: string): Body['logMap'] => ({ time: { column: time } })

function keep(
  record: MemoryRecord,
  [number, clock]: readonly [number, string],
  body: Partial<Body>,
  corrects?: number,
): void {
  const id = (place: number) => `019d0000-0000-7000-8000-00000000000${place}` as EntryId
  const machine: Body = {
    machine: 'machine:p',
    name: 'P',
    type: 'hydrogenPeroxideSteriliser',
    airRemoval: 'none',
    chamberLitres: 100,
    programs: ['own'],
    ...body,
  }
  const head = { id: id(number), site: 'unit-a', kind: 'machine-registered', by: 'person:ann', workstation: 'bench' }
  const happenedAt: Instant = at(clock)
  const corrected = corrects === undefined ? {} : { corrects: id(corrects) }
  record.keep({ ...head, happenedAt, body: machine, ...corrected } as unknown as TypedSent)
}

async function coldestAt(record: MemoryRecord, clock: string | null, name = 'own'): Promise<number | undefined> {
  const machine = (await record.known(['machine:p'])).get('machine:p')
  assert.ok(machine)
  return readInForceAt(machine, clock === null ? null : at(clock)).windows?.[name]?.windows[0]?.from
}

test('a change is in force from the time of its entry; what ran before is read by what was registered then', async () => {
  const record = new MemoryRecord()
  keep(record, [1, '06:00'], { windows: { own: program(40) } })
  keep(record, [2, '12:00'], { windows: { own: program(50) } }, 1)
  keep(record, [3, '15:00'], { windows: { own: program(45) } }, 2)
  assert.deepEqual(
    await Promise.all(
      ['05:00', '06:00', '11:59', '12:00', '14:59', '15:00', null].map((clock) => coldestAt(record, clock)),
    ),
    [40, 40, 40, 50, 50, 45, 45],
  )
})

test('a correction that is timed as what it corrects was so from the beginning', async () => {
  const record = new MemoryRecord()
  keep(record, [1, '06:00'], { windows: { own: program(40) } })
  keep(record, [2, '06:00'], { windows: { own: program(50) } }, 1)
  assert.equal(await coldestAt(record, '11:00'), 50)
  const earlier = new MemoryRecord()
  keep(earlier, [1, '06:00'], { windows: { own: program(40) } })
  keep(earlier, [2, '05:00'], { windows: { own: program(50) } }, 1)
  keep(earlier, [3, '15:00'], { windows: { own: program(45) } }, 2)
  assert.deepEqual([await coldestAt(earlier, '11:00'), await coldestAt(earlier, '15:00')], [50, 45])
})

test('columns that were wrong from the beginning are put right from the beginning, after other corrections too', async () => {
  const record = new MemoryRecord()
  keep(record, [1, '06:00'], { logMap: column('wrong') })
  keep(record, [2, '12:00'], { logMap: column('still wrong') }, 1)
  keep(record, [3, '06:00'], { logMap: column('right') }, 2)
  const machine = (await record.known(['machine:p'])).get('machine:p')
  assert.ok(machine)
  assert.deepEqual(
    ['06:00', '11:59', '12:00', '18:00'].map((clock) => readInForceAt(machine, at(clock)).logMap),
    [column('right'), column('right'), column('right'), column('right')],
  )
})

test('a programme that only the machine knows is read as it was registered first; a published one by the limits of the policy', async () => {
  const record = new MemoryRecord()
  keep(record, [1, '06:00'], {})
  keep(record, [2, '12:00'], { windows: { own: program(50), 'peroxide-plasma': program(30) } }, 1)
  keep(record, [3, '15:00'], { windows: { own: program(45), 'peroxide-plasma': program(30) } }, 2)
  assert.equal(await coldestAt(record, '11:00'), 50)
  assert.equal(await coldestAt(record, '11:00', 'peroxide-plasma'), undefined)
  assert.equal(await coldestAt(record, '12:00', 'peroxide-plasma'), 30)
})

test('the columns of a log are those of its time, or the first that were kept', async () => {
  const record = new MemoryRecord()
  keep(record, [1, '06:00'], {})
  keep(record, [2, '10:00'], { logMap: column('t') }, 1)
  keep(record, [3, '15:00'], { logMap: column('seconds') }, 2)
  const machine = (await record.known(['machine:p'])).get('machine:p')
  assert.ok(machine)
  const maps = ['07:00', '12:00', '16:00'].map((clock) => readInForceAt(machine, at(clock)).logMap)
  assert.deepEqual(maps, [column('t'), column('t'), column('seconds')])
})

test('a machine whose history is not at hand is read as it is', async () => {
  const record = new MemoryRecord()
  keep(record, [1, '06:00'], { windows: { own: program(40) } })
  const machine = (await record.known(['machine:p'])).get('machine:p')
  assert.ok(machine)
  const { registered: _, ...older } = machine
  assert.equal(readInForceAt(older, at('07:00')).windows?.['own']?.windows[0]?.from, 40)
})
