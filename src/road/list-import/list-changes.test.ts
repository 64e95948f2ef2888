import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import type { EntryId, KeptEntry } from '../entry.ts'
import type { Instant } from '../instant.ts'
import { caseFold, caseStanding } from '../operating/fold.ts'
import type { SubjectId } from '../subject.ts'
import type { Appointment } from './appointment.ts'
import { listChanges, type ListFacts } from './list-changes.ts'
import { ListMapping } from './mapping.ts'
import { readListCsv } from './read-list-csv.ts'

const id = 'case:l-1' as SubjectId<'case'>
const booking = {
  patient: 'P-1',
  procedure: 'Hernia repair',
  theatre: 'Theatre 1',
  plannedAt: '2026-12-01T07:30:00.000Z' as Instant,
  surgeon: 'person:sana' as SubjectId<'person'>,
  implantPlanned: true,
}
const asked: Appointment = {
  line: 1,
  ref: '1',
  from: 'SIU S14 M-1',
  saidAt: '2026-11-30T09:00:00.000Z' as Instant,
  is: 'booked',
  startsAt: booking.plannedAt,
  theatre: 'Theatre 1',
  surgeon: ['Sana Okafor'],
  procedure: 'Hernia repair',
  remarks: [],
}
const told = (at: string, workstation: string, patient: string): KeptEntry =>
  ({
    id: 'e-1' as EntryId,
    kind: 'case-booked',
    happenedAt: at as Instant,
    workstation,
    body: { case: id, ...booking, patient },
  }) as Partial<KeptEntry> as KeptEntry

interface Given {
  readonly booked?: boolean
  readonly opened?: boolean
  readonly toldAt?: string
  readonly toldBy?: string
  readonly patient?: string
  readonly mapping?: Partial<ListMapping>
}

function factsOf(given: Given): ListFacts {
  const { booked = false, opened = false, toldAt, toldBy = 'SIU S12 M-0', patient = 'P-1', mapping = {} } = given
  const step = { at: booking.plannedAt, entry: 'e-1' as EntryId, by: booking.surgeon }
  const state = {
    ...caseFold.begin(id),
    booked: booked ? { ...booking, patient, ...step } : null,
    opened: opened ? [step as never] : [],
  }
  return {
    caseOf: () => id,
    pseudonymOf: (number) => `P of ${number}`,
    known: new Map(booked ? [[id, { state, standing: caseStanding(state) }]] : []),
    history: new Map([[id, toldAt === undefined ? [] : [told(toldAt, toldBy, patient)]]]),
    people: [
      { id: 'person:sana', name: 'Sana  Okafor' },
      { id: 'person:uwe', name: 'Uwe Wirth' },
      { id: 'person:uwe2', name: 'Uwe Wirth' },
    ],
    mapping: ListMapping.parse(mapping),
    now: '2026-11-30T10:00:00.000Z' as Instant,
  }
}

const early = '2026-11-30T08:00:00.000Z'
const late = '2026-11-30T09:30:00.000Z'

describe('listChanges: what a line comes to', () => {
  for (const [title, given, more, act] of [
    ['an operation that is not here', {}, {}, 'book'],
    ['the same as it is booked', { booked: true, toldAt: early }, {}, 'same'],
    ['another time', { booked: true, toldAt: early }, { startsAt: late as Instant }, 'move'],
    ['another theatre', { booked: true, toldAt: early }, { theatre: 'Theatre 2' }, 'move'],
    ['another operation', { booked: true, toldAt: early }, { procedure: 'Other' }, 'change'],
    ['cancelled', { booked: true, toldAt: early }, { is: 'cancelled' }, 'cancel'],
    ['cancelled, and never booked', {}, { is: 'cancelled' }, 'same'],
    ['what was said before what is on record', { booked: true, toldAt: late }, { procedure: 'Other' }, 'older'],
    ['booked, said before it was cancelled here', { toldAt: late }, {}, 'older'],
    ['booked again after it was cancelled', { toldAt: early }, {}, 'book'],
    [
      'a list without the time at which it was said',
      { booked: true, toldAt: late },
      { saidAt: null, procedure: 'Other' },
      'change',
    ],
    ['an operation that has begun', { booked: true, opened: true, toldAt: early }, { is: 'cancelled' }, 'cannot'],
    ['a surgeon whom nobody knows', {}, { surgeon: ['Nobody'] }, 'cannot'],
    ['a surgeon whose name two have', {}, { surgeon: ['Uwe Wirth'] }, 'cannot'],
    ['no surgeon', {}, { surgeon: undefined }, 'cannot'],
    ['no theatre', {}, { theatre: undefined }, 'cannot'],
    ['no surgeon said of one that has one', { booked: true, toldAt: early }, { surgeon: undefined }, 'same'],
  ] as const satisfies readonly (readonly [string, Given, Partial<Appointment>, string])[])
    test(`given ${title}, then ${act}`, () => {
      const [change] = listChanges({ appointments: [{ ...asked, ...more }], unreadable: [] }, factsOf(given))
      assert.equal(change?.act, act, change?.says.join('; '))
      const writes = ['book', 'move', 'change', 'cancel'].includes(act)
      assert.equal(change?.write !== null, writes)
    })

  const named = (hospitalNumber: string): Partial<Appointment> => ({ identity: { hospitalNumber } })
  const ida = { booked: true, toldAt: early, patient: 'P of patient 111' }
  for (const [title, given, more, act, says] of [
    ['the same patient', ida, named('111'), 'same', undefined],
    [
      'another patient at another time',
      ida,
      { ...named('222'), startsAt: late as Instant },
      'cannot',
      /another patient/,
    ],
    ['another patient and nothing else', ida, named('222'), 'cannot', /another patient/],
    ['another patient by a number that stands for one', ida, { pseudonym: 'P-2' }, 'cannot', /another patient/],
    ['another patient after it was cancelled', { ...ida, booked: false }, named('222'), 'cannot', /another patient/],
    ['a cancellation of another patient', ida, { ...named('222'), is: 'cancelled' }, 'cannot', /another patient/],
    ['a cancellation of the same patient', ida, { ...named('111'), is: 'cancelled' }, 'cancel', undefined],
    ['a number of the same digits with its hospital', ida, { ...named('111'), numberedBy: 'A' }, 'same', undefined],
    [
      'the same digits of another hospital',
      { ...ida, patient: 'P of patient 111 of A' },
      { ...named('111'), numberedBy: 'B' },
      'cannot',
      /another patient/,
    ],
    ['a patient, and booked without one', { ...ida, patient: 'P of operation 1' }, named('1'), 'cannot', /without one/],
    [
      'a cancellation said before it was written here by hand',
      { booked: true, toldAt: late, toldBy: 'theatre-desk' },
      { is: 'cancelled' },
      'cannot',
      /it was cancelled there at 2026-11-30T09:00.*wanted a person/,
    ],
    [
      'a cancellation said before a list without its hour was recorded',
      { booked: true, toldAt: late, toldBy: 'list row 2' },
      { is: 'cancelled' },
      'cannot',
      /wanted a person/,
    ],
    [
      'a cancellation said before a later message',
      { booked: true, toldAt: late },
      { is: 'cancelled' },
      'older',
      /which is later/,
    ],
  ] as const satisfies readonly (readonly [string, Given, Partial<Appointment>, string, RegExp | undefined])[])
    test(`given ${title}, then ${act}`, () => {
      const [change] = listChanges({ appointments: [{ ...asked, ...more }], unreadable: [] }, factsOf(given))
      assert.equal(change?.act, act, change?.says.join('; '))
      assert.equal(change?.write !== null, act === 'cancel')
      if (says !== undefined) assert.match(change?.says[0] ?? '', says)
    })

  test('given one number of two hospitals, then two patients', () => {
    const of = (numberedBy: string) =>
      listChanges({ appointments: [{ ...asked, ...named('123'), numberedBy }], unreadable: [] }, factsOf({}))[0]
    assert.notEqual(of('A')?.after?.patient, of('B')?.after?.patient)
  })

  test('given a mapping, then the surgeon and the theatre are those of the unit', () => {
    const mapping = { surgeons: { 'S-9': booking.surgeon }, theatres: { 'OR 2': 'Theatre 2' } }
    const line = { ...asked, surgeon: ['S-9', 'Okafor'], theatre: 'OR 2' }
    const [change] = listChanges({ appointments: [line], unreadable: [] }, factsOf({ mapping }))
    assert.equal(change?.after?.surgeon, 'person:sana')
    assert.equal(change?.after?.theatre, 'Theatre 2')
  })

  test('given a patient, then what is written has neither the name nor the number', () => {
    const identity = { name: 'Ida Invented', hospitalNumber: 'H-5512' }
    const [change] = listChanges({ appointments: [{ ...asked, identity }], unreadable: [] }, factsOf({}))
    assert.equal(change?.after?.patient, 'P of patient H-5512')
    assert.doesNotMatch(JSON.stringify(change?.write).replace('P of patient H-5512', ''), /Ida|Invented|H-5512/)
  })

  test('given nothing of an implant, then yes and said, or no where the unit has said so', () => {
    const of = (mapping: Partial<ListMapping>) =>
      listChanges({ appointments: [asked], unreadable: [] }, factsOf({ mapping }))[0]
    assert.deepEqual(
      [of({})?.after?.implantPlanned, of({ implantWhenNotSaid: false })?.after?.implantPlanned],
      [true, false],
    )
    assert.match(of({})?.says[0] ?? '', /strict reading/)
  })

  test('given several of one operation, then the one said last counts, whatever their order', () => {
    const first = { ...asked, line: 2 }
    const last = { ...asked, line: 1, saidAt: late as Instant, is: 'cancelled' as const }
    const acts = listChanges({ appointments: [last, first], unreadable: [] }, factsOf({ booked: true, toldAt: early }))
    assert.deepEqual(
      acts.map(({ act }) => act),
      ['cancel', 'replaced'],
    )
  })
})

describe('readListCsv', () => {
  const mapping = ListMapping.parse({ columns: { ref: 'Case no', start: 'Begin', surgeon: 'Operator' } })
  const one = (row: string, order: Partial<ListMapping> = {}) =>
    readListCsv(
      `Case no;Begin;Operator;Theatre;Procedure;Implant;Status\n${row}`,
      { ...mapping, ...order },
      'Europe/Berlin',
    )
  for (const [written, order, is] of [
    ['2026-12-01 08:30', 'dayFirst', '2026-12-01T07:30:00.000Z'],
    ['01.12.2026 08:30', 'dayFirst', '2026-12-01T07:30:00.000Z'],
    ['12/01/2026 8:30', 'monthFirst', '2026-12-01T07:30:00.000Z'],
    ['2026-12-01T08:30+05:00', 'dayFirst', '2026-12-01T03:30:00.000Z'],
    ['31.02.2026 08:30', 'dayFirst', undefined],
    ['2026-02-31T07:30Z', 'dayFirst', undefined],
    ['2026-02-31 07:30+01:00', 'dayFirst', undefined],
    ['12/13/2026 08:30', 'dayFirst', undefined],
    ['tomorrow', 'dayFirst', undefined],
  ] as const)
    test(`${written}, ${order}`, () => {
      const { appointments, unreadable } = one(`7;${written};Sana;Theatre 1;"Hernia; mesh";yes;`, { dateOrder: order })
      assert.equal(appointments[0]?.startsAt, is)
      assert.equal(unreadable.length, is === undefined ? 1 : 0)
    })
  test('given cells, then each is read by its column', () => {
    const [read] = one('7;2026-12-01 08:30;Sana;Theatre 1;"Hernia; mesh";yes;').appointments
    assert.deepEqual(
      [read?.ref, read?.surgeon, read?.theatre, read?.procedure, read?.implantPlanned, read?.is],
      ['7', ['Sana'], 'Theatre 1', 'Hernia; mesh', true, 'booked'],
    )
  })
  test('given cancelled, then cancelled, also without a time', () =>
    assert.equal(one('7;;;;;;Cancelled').appointments[0]?.is, 'cancelled'))
  for (const [word, is] of [
    ['Booked', 'booked'],
    ['', 'booked'],
    ['annulled', undefined],
    ['postponed', undefined],
  ] as const)
    test(`given the status ${JSON.stringify(word)}, then ${is ?? 'it is not read, and it is said'}`, () => {
      const { appointments, unreadable } = one(`7;2026-12-01 08:30;Sana;Theatre 1;Hernia;yes;${word}`)
      assert.equal(appointments[0]?.is, is)
      if (is === undefined) assert.match(unreadable[0]?.says ?? '', new RegExp(`status: wanted .*"${word}"`))
    })
  for (const [word, planned, said] of [
    ['hip prosthesis', true, true],
    ['No', false, false],
    ['', undefined, false],
  ] as const)
    test(`given the implant ${JSON.stringify(word)}, then ${planned}`, () => {
      const [read] = one(`7;2026-12-01 08:30;Sana;Theatre 1;Hernia;${word};`).appointments
      assert.equal(read?.implantPlanned, planned)
      assert.equal(/neither yes nor no/.test(read?.remarks.join() ?? ''), said)
    })
  test('given no column for the number, then nothing is read, and it is said', () => {
    const { unreadable } = readListCsv('A,B\n1,2', ListMapping.parse({}), 'UTC')
    assert.match(unreadable[0]?.says ?? '', /no column was named for ref.*The file has: A, B/)
  })
  test('given a column that is not there, then it is said', () => {
    const { unreadable } = readListCsv('ref,start\n1,2', mapping, 'UTC')
    assert.match(unreadable[0]?.says ?? '', /no column is headed "Case no"/)
  })
})
