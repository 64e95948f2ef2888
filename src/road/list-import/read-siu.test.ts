import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import * as fc from 'fast-check'
import { hl7Messages } from './hl7-message.ts'
import { hl7Instant } from './hl7-time.ts'
import { readSiu } from './read-siu.ts'

/*
 * HL7 v2.5.1: the order of segments is that of the published structure SIU_S12 (www.hl7.eu/HL7v2x, event S12); numbers of
 * fields, escape sequences (2.7) and times (2.A.22) are from memory, and so the messages are our own.
 */

const siu = (event: string, more: Partial<Record<'made' | 'start' | 'status' | 'id', string>> = {}): string =>
  [
    `MSH|^~\\&|PLANNING|HOSPITAL|LOOP|UNIT|${more.made ?? '20261130101500+0100'}||SIU^${event}^SIU_S12|M-${event}|P|2.5.1`,
    `SCH|P-77^ASK|${more.id ?? 'F-1001^KEEP'}|||||Elective^Elective||90|min^^UCUM||||||||||||||${more.status === undefined ? '' : `|${more.status}`}`,
    `TQ1|1||||||${more.start ?? '20261201083000+0100'}|`,
    'PID|1||X-1^^^HOSP^VN~H-5512^^^HOSP^MR||Invented^Ida||19710402|F|||||555 0142',
    'PV1|1|I',
    'RGS|1|A',
    'AIS|1|A|CHOL^Cholecystectomy \\T\\ cholangiography^LOCAL|20261201083000+0100',
    'AIL|1|A|OR^2^^HOSP',
    'AIP|1|A|N-3^Wirth^Uwe|ANE^Anaesthetist',
    'AIP|2|A|S-9^Okafor^Sana|SUR^Surgeon',
  ].join('\r')

describe('SIU: what a message says', () => {
  test('given S12, then the operation stands with its number, time, theatre, surgeon, patient and length', () => {
    const { appointments, unreadable } = readSiu(siu('S12'), 'UTC')
    assert.deepEqual(unreadable, [])
    assert.deepEqual(appointments, [
      {
        line: 1,
        ref: 'F-1001^KEEP',
        saidAt: '2026-11-30T09:15:00.000Z',
        from: 'SIU S12 M-S12',
        remarks: [],
        is: 'booked',
        startsAt: '2026-12-01T07:30:00.000Z',
        minutes: 90,
        theatre: 'OR 2',
        surgeon: ['S-9', 'Sana Okafor', 'Okafor Sana', 'Okafor, Sana', 'Okafor'],
        procedure: 'Cholecystectomy & cholangiography',
        identity: { name: 'Ida Invented', hospitalNumber: 'H-5512', bornOn: '1971-04-02', phone: '555 0142' },
        numberedBy: 'HOSP',
      },
    ])
  })
  test('given 55 of the one system and 55 of the other, then two operations', () => {
    const ref = (schedule: string) =>
      readSiu(siu('S12').replace('SCH|P-77^ASK|F-1001^KEEP', `SCH|${schedule}`), 'UTC').appointments[0]?.ref
    assert.deepEqual([ref('55|'), ref('900|55'), ref('901|55^SYS')], ['SCH-1: 55', '55', '55^SYS'])
  })
  test('given a second AIS, then the first is the operation and the second is said', () => {
    const [read] = readSiu(`${siu('S12')}\rAIS|2|A|b^Removal of screws`, 'UTC').appointments
    assert.match(read?.procedure ?? '', /^Cholecystectomy/)
    assert.deepEqual(read?.remarks, ['a further AIS is left out: "Removal of screws"'])
  })
  test('given a message made in summer time of a day in winter without an offset, then the other reading is said', () => {
    const of = (made: string) =>
      readSiu(
        siu('S12', { made, start: '202612010730' }).replace('|20261201083000+0100', ''),
        'Europe/Berlin',
      ).appointments[0]?.remarks.join() ?? 'not read'
    assert.match(of('20261001101500+0200'), /by that of MSH-7 it is 2026-12-01T05:30.*would be 2026-12-01T06:30/)
    assert.equal(of('20261130101500+0100'), '')
  })
  for (const [event, is] of [
    ['S13', 'booked'],
    ['S14', 'booked'],
    ['S15', 'cancelled'],
    ['S17', 'cancelled'],
  ] as const)
    test(`given ${event}, then the operation is ${is}`, () =>
      assert.equal(readSiu(siu(event), 'UTC').appointments[0]?.is, is))
  test('given S14 with the status cancelled, then it is cancelled', () =>
    assert.equal(readSiu(siu('S14', { status: 'Cancelled' }), 'UTC').appointments[0]?.is, 'cancelled'))
  for (const [title, text, says] of [
    ['another event', siu('S26'), /MSH-9: wanted S12/],
    ['another kind of message', siu('S12').replace('SIU^S12', 'ADT^A01'), /MSH-9: wanted SIU/],
    ['a day without a time', siu('S12', { start: '20261201' }), /TQ1-7: wanted a day and a time/],
    ['no number', siu('S12').replace('P-77^ASK|F-1001^KEEP', '|'), /SCH-2 or SCH-1/],
    ['a time not fixed', siu('S12', { status: 'Pending' }), /no time is fixed/],
    ['an operation under way', siu('S14', { status: 'Started' }), /recorded there/],
    ['no MSH', 'PID|1', /wanted MSH/],
    ['separators that are one', siu('S12').replace('|^~\\&|', '|^^\\&|'), /five different separators/],
    ['a broken segment', `${siu('S12')}\rnonsense`, /three letters of a segment/],
  ] as const)
    test(`given ${title}, then it is not read, and it is said why`, () => {
      const { appointments, unreadable } = readSiu(text, 'UTC')
      assert.deepEqual(appointments, [])
      assert.match(unreadable[0]?.says ?? '', says)
    })
  test('given two beginnings that differ, then the first place counts and the other is said', () => {
    const [read] = readSiu(siu('S12', { start: '202612010900+0100' }), 'UTC').appointments
    assert.equal(read?.startsAt, '2026-12-01T08:00:00.000Z')
    assert.match(read?.remarks[0] ?? '', /AIS-4 says "20261201083000\+0100"/)
  })
  test('given other separators in MSH, then the same is read', () => {
    const swap = new Map([
      ['|', '#'],
      ['^', '*'],
      ['~', '!'],
      ['\\', '$'],
      ['&', '%'],
    ])
    const other = Array.from(siu('S12'), (character) => swap.get(character) ?? character).join('')
    // What \T\ stands for is the separator of its own message.
    const same = JSON.stringify(readSiu(siu('S12'), 'UTC')).replace('& cholangiography', '% cholangiography')
    assert.equal(JSON.stringify(readSiu(other, 'UTC')), same)
  })
})

describe('DTM: moments', () => {
  for (const [text, zone, offset, is] of [
    ['202611300730', 'Europe/Berlin', undefined, '2026-11-30T06:30:00.000Z'],
    ['202607010730', 'Europe/Berlin', undefined, '2026-07-01T05:30:00.000Z'],
    ['202611300730', 'UTC', '-0500', '2026-11-30T12:30:00.000Z'],
    ['20261130073015.1234+0530', 'UTC', '-0500', '2026-11-30T02:00:15.000Z'],
    ['20261130', 'UTC', undefined, undefined],
    ['20260231073000', 'UTC', undefined, undefined],
    ['2026-11-30 07:30', 'UTC', undefined, undefined],
    ['20261130073000+9900', 'UTC', undefined, undefined],
  ] as const)
    test(`${text} in ${zone} ${offset ?? ''}`, () => assert.equal(hl7Instant(text, zone, offset), is))
})

test('hl7Messages: whatever stands in a field comes back, escaped by the separators of its message', () => {
  const codes: Readonly<Record<string, string>> = { '|': 'F', '^': 'S', '~': 'R', '\\': 'E', '&': 'T' }
  const escaped = (text: string): string =>
    Array.from(text, (c) => (codes[c] === undefined ? c : `\\${codes[c]}\\`)).join('')
  const texts = fc
    .string({ unit: fc.constantFrom('a', 'ß', ' ', '|', '^', '~', '\\', '&', 'F', '.') })
    .map((text) => text.trim())
  fc.assert(
    fc.property(fc.array(texts, { minLength: 1, maxLength: 6 }), (fields) => {
      const [message] = hl7Messages(`MSH|^~\\&|A\rZZZ|${fields.map(escaped).join('|')}`)
      assert.ok(message?.kind === 'message')
      const segment = message.segments[1]
      for (const [place, field] of fields.entries()) assert.equal(segment?.at(place + 1), field)
    }),
  )
})

test('hl7Messages: no text throws', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.constantFrom('M', 'S', 'H', '|', '^', '\\', '\r', '\n', '~', '&', 'X', '4') }),
      (text) => {
        for (const message of hl7Messages(`MSH|^~\\&|${text}`))
          if (message.kind === 'message') for (const segment of message.segments) segment.at(3, 2)
      },
    ),
  )
})
