import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { SourceStatus } from '#units/source.ts'
import type { Topic } from '../deciding/topic.ts'
import { bathFailureTopic } from './decide-failure.ts'
import { bathShelfLifeTopic } from './decide-shelf-life.ts'
import { bathTopUpTopic } from './decide-top-up.ts'
import { bathUseTopic } from './decide-use.ts'
import { stripBottleTopic } from './decide-bottle.ts'

const whole = { fullyImmersed: true, lumensFilled: true, cleanedAndDry: true, daysToExpiry: 200 }
const opa = {
  product: 'ortho-phthalaldehyde-0.55',
  temperatureC: 20,
  contactMinutes: 12,
  daysSinceActivation: 10,
  strip: 'pass',
  ...whole,
}
const glut = { ...opa, product: 'glutaraldehyde-2', contactMinutes: 20, daysSinceActivation: 3 }
const peroxide = { ...opa, product: 'hydrogen-peroxide-7.5', contactMinutes: 30, strip: { percent: 6.1 } }
const mixed = { ...opa, product: 'hydrogen-peroxide-7.35-peracetic-0.23', contactMinutes: 15, strip: null }

/** Row of the table of check cases, how far it was confirmed, what is given, what is decided, and by which rule refused. */
type Row = readonly [id: string, status: SourceStatus, given: object, decision: string, rule?: string]

const uses: readonly Row[] = [
  ['H01', 'confirmed', opa, 'accept'],
  ['H03', 'confirmed', { ...opa, temperatureC: 19 }, 'reject', 'bath-warm'],
  ['H04', 'confirmed', { ...opa, how: 'reprocessor', temperatureC: 25, contactMinutes: 5 }, 'accept'],
  ['H06', 'confirmed', { ...opa, daysSinceActivation: 15 }, 'reject', 'bath-young'],
  ['H07', 'confirmed', { ...opa, daysSinceActivation: 3, strip: { percent: 0.29 } }, 'reject', 'bath-strong'],
  ['H09', 'secondary', glut, 'reject', 'bath-warm'],
  ['H10', 'secondary', { ...glut, contactBasis: 'society' }, 'accept'],
  ['H12', 'confirmed', { ...glut, contactBasis: 'society', strip: { percent: 1.4 } }, 'reject', 'bath-strong'],
  [
    'H13',
    'confirmed',
    { ...opa, product: 'glutaraldehyde-2.5', how: 'reprocessor', temperatureC: 35, contactMinutes: 5 },
    'accept',
  ],
  ['H15', 'confirmed', peroxide, 'accept'],
  ['H16', 'confirmed', { ...peroxide, daysSinceActivation: 22 }, 'reject', 'bath-young'],
  ['H18', 'confirmed', { ...opa, product: 'hydrogen-peroxide-2', contactMinutes: 8 }, 'accept'],
  ['H19', 'confirmed', mixed, 'accept'],
  ['H19, to sterilise', 'confirmed', { ...mixed, claim: 'sterilise', contactMinutes: 180 }, 'accept'],
  ['H21', 'confirmed', { ...opa, product: 'chlorine-400-ppm', contactMinutes: 10, daysSinceActivation: 0 }, 'accept'],
  ['H22', 'secondary', { ...opa, strip: null }, 'reject', 'bath-strong'],
  // Of the same kinds, one condition at its edge or beyond.
  ['met at equality', 'confirmed', { ...opa, strip: { percent: 0.3 } }, 'accept'],
  ['on its last day, to the minute', 'confirmed', { ...opa, daysSinceActivation: 14 }, 'accept'],
  ['over before the contact is', 'confirmed', { ...opa, daysSinceActivation: 14.001 }, 'reject', 'bath-young'],
  [
    'five minutes by hand',
    'confirmed',
    { ...opa, temperatureC: 25, contactMinutes: 5 },
    'reject',
    'immersed-long-enough',
  ],
  ['an hour in the cold', 'confirmed', { ...opa, temperatureC: 18, contactMinutes: 60 }, 'reject', 'bath-warm'],
  [
    'three hours less a minute',
    'confirmed',
    { ...mixed, claim: 'sterilise', contactMinutes: 179 },
    'reject',
    'immersed-long-enough',
  ],
  ['no such claim', 'confirmed', { ...opa, claim: 'sterilise', contactMinutes: 600 }, 'reject', 'immersed-as-claimed'],
  ['past its printed expiry', 'confirmed', { ...opa, daysToExpiry: -1 }, 'reject', 'bath-young'],
  ['expiry not recorded', 'commonPractice', { ...opa, daysToExpiry: null }, 'reject', 'bath-young'],
  ['lumens not filled', 'confirmed', { ...opa, lumensFilled: false }, 'reject', 'immersed-everywhere'],
  ['nobody looked', 'confirmed', { ...opa, fullyImmersed: null }, 'reject', 'immersed-everywhere'],
  ['an implant', 'commonPractice', { ...opa, implant: true }, 'reject', 'immersed-without-implant'],
  [
    'urology after bladder cancer',
    'confirmed',
    { ...opa, urological: true, bladderCancer: 'yes' },
    'reject',
    'bath-not-for-bladder-cancer',
  ],
  [
    'mycobacteria',
    'confirmed',
    { ...glut, contactBasis: 'society', mycobacteriaSuspected: true },
    'reject',
    'bath-not-for-mycobacteria',
  ],
  ['mycobacteria, another agent', 'confirmed', { ...opa, mycobacteriaSuspected: true }, 'accept'],
  [
    'strength by the label only',
    'commonPractice',
    { ...opa, product: 'peracetic-0.31', contactMinutes: 7, daysSinceActivation: 1, strip: { percent: 0.3 } },
    'reject',
    'bath-strong',
  ],
]

const bottle = (passed: number, failed: number, tried = 3) => ({
  fullStrength: { tried, passed },
  halfStrength: { tried, failed },
})
const pass = { kind: 'strip', result: 'pass' }
const fail = { kind: 'strip', result: 'fail' }
const use = (name: string) => ({ kind: 'use', name })
const cycles = [1, 2, 3, 4, 5, 6, 7].flatMap((number) => [pass, use(`cycle ${number}`)])

const tables: readonly (readonly [Topic, readonly Row[]])[] = [
  [bathUseTopic, uses],
  [
    bathTopUpTopic,
    [
      ['H24', 'unverified', { product: opa.product, daysSinceActivation: 10 }, 'clockUnchanged'],
      ['day 15', 'confirmed', { product: opa.product, daysSinceActivation: 15 }, 'discard', 'top-up-resets-nothing'],
      [
        'after a failed strip',
        'secondary',
        { product: opa.product, daysSinceActivation: 3, lastStrip: 'fail' },
        'discard',
      ],
    ],
  ],
  [
    stripBottleTopic,
    [
      ['H25', 'secondary', bottle(3, 2), 'reject', 'strip-bottle-proven'],
      ['three and three', 'secondary', bottle(3, 3), 'accept'],
      ['one fails in full strength', 'secondary', bottle(2, 3), 'reject'],
      ['two tried', 'unverified', bottle(2, 2, 2), 'reject'],
    ],
  ],
  [
    bathShelfLifeTopic,
    [
      [
        'H27',
        'confirmed',
        { product: opa.product, madeOn: '2024-03-01', openedOn: '2026-03-02' },
        'reject',
        'bath-within-shelf-life',
      ],
      [
        'two years to the day',
        'confirmed',
        { product: opa.product, madeOn: '2024-03-01', openedOn: '2026-03-01' },
        'accept',
      ],
      [
        'peracetic acid after six months',
        'confirmed',
        { product: 'peracetic-0.2', madeOn: '2025-08-31', openedOn: '2026-03-01' },
        'reject',
      ],
      [
        'its printed expiry comes first',
        'commonPractice',
        { product: opa.product, madeOn: '2024-03-01', expiresOn: '2025-01-01', openedOn: '2025-01-02' },
        'reject',
      ],
      ['age not known', 'commonPractice', { product: opa.product, openedOn: '2026-03-01' }, 'reject'],
    ],
  ],
  [
    bathFailureTopic,
    [
      ['H28', 'secondary', { history: [...cycles, fail] }, 'discard'],
      ['used without a strip', 'secondary', { history: [...cycles, use('cycle 8'), fail] }, 'discardAndRecall'],
      ['a later pass speaks for it', 'secondary', { history: [use('cycle 1'), pass, use('cycle 2'), fail] }, 'discard'],
      [
        'topped up before that pass',
        'secondary',
        { history: [use('cycle 1'), { kind: 'toppedUp' }, pass, fail] },
        'discardAndRecall',
      ],
      ['the last strip passed', 'secondary', { history: cycles }, 'goOn'],
    ],
  ],
]

for (const [topic, rows] of tables) {
  test(`${topic.topic}: its worked example`, () => {
    const result = topic.run(topic.example.given)
    assert.ok(result.kind === 'decided')
    assert.equal(result.decision, topic.example.decision)
  })
  for (const [id, status, given, decision, rule] of rows) {
    test(`${topic.topic} ${id} (${status}): ${decision}`, () => {
      const result = topic.run(given)
      assert.ok(result.kind === 'decided', JSON.stringify(result))
      assert.equal(result.decision, decision, JSON.stringify(result.findings))
      assert.ok(decision in topic.decisions)
      if (rule !== undefined) assert.ok(result.findings.some((finding) => finding.rule === rule))
      const sources = [...result.findings.map(({ source }) => source), ...topic.sources]
      assert.ok(
        sources.some((source) => source.status === status),
        `no source that is ${status}`,
      )
    })
  }
}

test('a recall after a failed strip names what no passed strip speaks for', () => {
  const result = bathFailureTopic.run({ history: [...cycles, use('cycle 8'), use('cycle 9'), fail] })
  assert.ok(result.kind === 'decided')
  assert.match(result.findings.map((each) => each.says).join(' '), /speaks for: cycle 8, cycle 9\./)
})
