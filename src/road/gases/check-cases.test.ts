import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Topic } from '../deciding/topic.ts'
import { cleaningTestTopic } from '../cleaning/decide-cleaning-test.ts'
import { aerationTopic } from './decide-aeration.ts'
import { cycleTopic } from './decide-cycle.ts'
import { residueTopic } from './decide-residue.ts'
import { roomExposureTopic } from './decide-room-exposure.ts'
import { sheetDesorptionTopic } from './decide-sheet-desorption.ts'

/*
 * Given the row's facts, when it is decided, then this decision; each test says the row's id, its source and how far
 * that is confirmed. Rows beside the published ones carry a letter after the number.
 */

interface Row {
  readonly id: string
  readonly source: string
  readonly topic: Topic
  readonly given: unknown
  readonly decision: string
  readonly measured?: string
}

const steam = (temperatureC: number, minutes: number, rest: object) => ({
  method: 'steam',
  temperatureC,
  minutes,
  ...rest,
})
const gas = (rest: object) => ({
  method: 'ethyleneOxide',
  mgPerL: 600,
  temperatureC: 55,
  relativeHumidityPercent: 60,
  minutes: 60,
  ...rest,
})
const rush = (rest: object) => ({
  method: 'immediateUse',
  air: 'gravity',
  item: 'solidMetal',
  temperatureC: 132,
  minutes: 3,
  ...rest,
})
const instruments = { air: 'gravity', item: 'wrappedInstruments', dryingMinutes: 20 }
const prevac = { air: 'prevacuum', item: 'wrappedInstruments' }
const dose = (contact: string, eo: object, ech?: object) => ({
  contact,
  eoMg: eo,
  ...(ech === undefined ? {} : { echMg: ech }),
})
const air = (vapour: string, periods: readonly (readonly [number, number])[], rest: object = {}) => ({
  vapour,
  periods: periods.map(([minutes, ppm]) => ({ minutes, ppm })),
  ...rest,
})

const c = (id: string, source: string, given: unknown, decision: string, measured?: string): Row => ({
  id,
  source,
  topic: cycleTopic,
  given,
  decision,
  ...(measured === undefined ? {} : { measured }),
})

const rows: readonly Row[] = [
  c('C02', 'CDC table 7, confirmed', steam(132, 14, instruments), 'reject'),
  c('C02b', 'CDC table 7, confirmed', steam(132, 15, instruments), 'accept'),
  c('C03', 'CDC table 7, confirmed', steam(132, 15, { ...instruments, item: 'textilePack' }), 'reject'),
  c('C03b', 'CDC table 7, confirmed', steam(132, 25, { ...instruments, item: 'textilePack' }), 'accept'),
  c('C05', 'CDC table 7, confirmed', steam(132, 4, { ...prevac, dryingMinutes: 10 }), 'reject'),
  c('C05b', 'CDC table 7, confirmed', steam(132, 4, { ...prevac, dryingMinutes: 20 }), 'accept'),
  c('C06', 'CDC table 7, confirmed', steam(121, 30, prevac), 'reject'),
  c(
    'C06b',
    'instructions of the maker',
    steam(121, 30, { ...prevac, maker: { temperatureC: 121, minutes: 30 } }),
    'accept',
  ),
  c('C08', 'ST79, unverified', steam(135, 3, { ...prevac, dryingMinutes: 16 }), 'accept'),
  c('C09', 'immediate use table, secondary', rush({}), 'accept'),
  c('C09b', 'immediate use table, secondary', rush({ minutes: 2.5 }), 'reject'),
  c('C10b', 'immediate use table, secondary', rush({ item: 'porousOrLumened' }), 'reject'),
  c('C11', 'immediate use table, secondary', rush({ air: 'prevacuum', item: 'porousOrLumened', minutes: 4 }), 'accept'),
  c('C12', 'CDC and AORN, unverified', rush({ reason: 'convenience', sterileDuplicate: true }), 'notAllowed'),
  c('C12b', 'implants, secondary', rush({ implant: true }), 'notAllowed'),
  c('C14', 'definition, secondary', rush({ use: 'nextPatient' }), 'reject'),
  c('C15', 'CDC, secondary', gas({}), 'accept'),
  c('C15b', 'CDC, secondary', gas({ mgPerL: 440 }), 'reject'),
  c('C16b', 'a missing record is not a pass', gas({ relativeHumidityPercent: null }), 'hold'),
  c('C17', 'CDC, secondary', gas({ relativeHumidityPercent: 35 }), 'reject'),
  c('C18', 'CDC, secondary', gas({ temperatureC: 65 }), 'reject'),
  c('C18b', 'CDC, secondary', gas({ temperatureC: 63, relativeHumidityPercent: 40 }), 'accept'),
  c('C20', 'unverified', { method: 'hydrogenPeroxide', outcome: 'cancelled', cause: 'moisture' }, 'reject'),
  c('C21', 'trial of 2003, confirmed', { method: 'formaldehyde', temperatureC: 50, load: 'full' }, 'hold'),
  c(
    'C21b',
    'trial of 2003, confirmed',
    { method: 'formaldehyde', temperatureC: 50, load: 'full', biological: 'passed' },
    'accept',
  ),
  c('C22b', 'EN 14180, secondary', { method: 'formaldehyde', temperatureC: 60, load: 'full' }, 'accept'),
  c('C23', 'ISO 20857 as cited, secondary', { method: 'dryHeat', temperatureC: 180, minutes: 30 }, 'accept'),
  c('C23b', 'ISO 20857 as cited, secondary', { method: 'dryHeat', temperatureC: 175, minutes: 30 }, 'reject'),
  c(
    'C24',
    'CDC table 4, confirmed',
    { method: 'peraceticLiquid', temperatureC: 52, minutes: 12, percent: 0.2 },
    'accept',
  ),
  c(
    'C24b',
    'CDC table 4, confirmed',
    { method: 'peraceticLiquid', temperatureC: 48, minutes: 12, percent: 0.2 },
    'reject',
  ),
  c(
    'C26',
    'spores of 1983, computed',
    { method: 'ethyleneOxideLethality', temperatureC: 55 },
    'information',
    '2.93 min',
  ),
  c(
    'C27',
    'spores of 1983, computed',
    { method: 'ethyleneOxideLethality', temperatureC: 55, minutes: 60 },
    'information',
    '20.48',
  ),
  c(
    'C29',
    'ISO 11135, secondary',
    { method: 'halfCycle', halfMinutes: 90, allIndicatorsDead: true, fullMinutes: 180 },
    'accept',
  ),
  c(
    'C29b',
    'ISO 11135, secondary',
    { method: 'halfCycle', halfMinutes: 90, allIndicatorsDead: true, fullMinutes: 179 },
    'reject',
  ),
  ...(
    [
      ['A01', 'CDC table 1, pair unverified', 60, 8, 'done'],
      ['A03', 'CDC table 1, pair unverified', 50, 12, 'done'],
      ['A04', 'pair rule, proposal', 50, 8, 'hold'],
      ['A05b', 'pair rule, proposal', 59, 8, 'hold'],
      ['A06', 'CDC, secondary', 20, 168, 'done'],
      ['A07', 'pair rule, proposal', 40, 29, 'hold'],
    ] as const
  ).map(([id, source, temperatureC, hours, decision]) => ({
    id,
    source,
    topic: aerationTopic,
    given: { temperatureC, hours },
    decision,
  })),
  ...(
    [
      ['A08b', 'ISO 10993-7, confirmed', dose('limited', { firstDay: 4 }, { firstDay: 9 }), 'pass'],
      ['A09', 'ISO 10993-7, confirmed', dose('limited', { firstDay: 4.1 }), 'fail'],
      ['A10', 'ISO 10993-7, confirmed', dose('limited', { firstDay: 4 }, { firstDay: 9.1 }), 'fail'],
      ['A12', 'ISO 10993-7, confirmed', dose('prolonged', { firstDay: 3, thirtyDays: 61 }), 'fail'],
      ['A13', 'ISO 10993-7, secondary', dose('prolonged', { firstDay: 5, thirtyDays: 20 }), 'fail'],
      ['A14b', 'ISO 10993-7, secondary', dose('prolonged', { thirtyDays: 20 }), 'hold'],
      ['A15', 'ISO 10993-7, confirmed', dose('permanent', { firstDay: 3, thirtyDays: 50, lifetime: 2600 }), 'fail'],
      [
        'A16',
        'ISO 10993-7, secondary',
        { ...dose('limited', { firstDay: 15 }), statedFirstDayLimitMg: 20 },
        'superseded',
      ],
      ['A17b', 'ISO 10993-7, confirmed', { contact: 'limited', eoMg: { firstDay: 1 }, eoMicrogramsPerCm2: 11 }, 'fail'],
    ] as const
  ).map(([id, source, given, decision]) => ({ id, source, topic: residueTopic, given, decision })),
  ...(
    [
      [
        'A18',
        'OSHA, confirmed',
        air('ethyleneOxide', [
          [120, 2],
          [360, 0.3],
        ]),
        'actionLevel',
      ],
      [
        'A19',
        'OSHA, computed',
        air('ethyleneOxide', [
          [240, 1],
          [240, 1.2],
        ]),
        'overLimit',
      ],
      [
        'A20b',
        'OSHA, confirmed',
        air('ethyleneOxide', [
          [15, 5.2],
          [465, 0],
        ]),
        'overLimit',
      ],
      [
        'A21',
        'OSHA training, secondary',
        air('ethyleneOxide', [[480, 0.5]], { daysAtActionLevel: 31 }),
        'surveillanceDue',
      ],
      ['A22', 'CDC table 4, confirmed', air('glutaraldehyde', [[15, 0.06]]), 'overLimit'],
      ['A23b', 'unknown time is not clean', air('ethyleneOxide', [[60, 0.2]]), 'hold'],
    ] as const
  ).map(([id, source, given, decision]) => ({ id, source, topic: roomExposureTopic, given, decision })),
  {
    id: 'A24',
    source: 'Crank, computed',
    topic: sheetDesorptionTopic,
    given: { thicknessMm: 1, diffusionCm2PerS: 1e-7 },
    decision: 'information',
    measured: '12.37 h',
  },
  ...(
    [
      ['R35', 'protein', 6, 'alert'],
      ['R35b', 'protein', 6.4, 'alert'],
      ['R36b', 'protein', 2.9, 'pass'],
      ['R37', 'haemoglobin', 2.3, 'action'],
      ['R38', 'atp', 15, 'alert'],
    ] as const
  ).map(([id, analyte, value, decision]) => ({
    id,
    source: 'ISO 15883-5, secondary',
    topic: cleaningTestTopic,
    given: { analyte, value },
    decision,
  })),
]

for (const { id, source, topic, given, decision, measured } of rows) {
  test(`${id}: ${topic.topic} is ${decision} (${source})`, () => {
    const result = topic.run(given)
    assert.equal(result.kind, 'decided', JSON.stringify(result))
    if (result.kind !== 'decided') return
    assert.equal(result.decision, decision)
    assert.ok(result.decision in topic.decisions)
    if (['reject', 'hold', 'notAllowed', 'fail', 'overLimit', 'action'].includes(decision)) {
      assert.ok(result.findings.length > 0, 'a refusal says why')
    }
    if (measured !== undefined) assert.ok(result.findings.some((each) => each.measured === measured))
  })
}
