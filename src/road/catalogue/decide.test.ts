import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Topic } from '../deciding/topic.ts'
import { immediateUseTopic } from './decide-immediate-use.ts'
import { lumenClaimTopic } from './decide-lumen-claim.ts'
import { prionTopic } from './decide-prion.ts'
import { routeTopic } from './decide-route.ts'

/*
 * The table of classification and method selection, row by row. Each name carries the row, what is expected, and how
 * far the row's source was confirmed.
 */

function decided(topic: Topic, given: unknown) {
  const result = topic.run(given)
  assert.ok(result.kind === 'decided', JSON.stringify(result))
  assert.ok(result.decision in topic.decisions, result.decision)
  for (const finding of result.findings) assert.ok(finding.source.title.length > 0)
  return result
}

const lists = (...methods: string[]) => methods.map((method) => ({ method }))
const steel = { material: 'stainlessSteel', openEnds: 2 }
const trocar = {
  contact: 'critical',
  materials: ['stainlessSteel'],
  heatStable134: true,
  moistureStable: true,
  immersible: true,
}
const gastroscope = {
  contact: 'semiCritical',
  optic: true,
  heatStable134: false,
  immersible: true,
  makerMethods: lists('ethyleneOxide', 'bathDisinfect'),
}
const scopeOfTwoUses = {
  ...gastroscope,
  uses: [
    { use: 'through the mouth', site: 'mucosa' },
    { use: 'in the peritoneum', site: 'sterileTissue' },
  ],
}
const telescope = { contact: 'critical', optic: true, heatStable134: false, immersible: true }
const bath = (agent: string) => ({ method: 'bathDisinfect', agent })
const heatLabile = { contact: 'critical', heatStable134: false }

test('a device whose maker lists ozone: barred, no programme on file, with the source; another listed method is taken', () => {
  const given = (more: object, picked?: string) => ({
    device: { ...heatLabile, makerOtherMethods: ['ozone'], ...more },
    ...(picked === undefined ? {} : { picked }),
  })
  const told = (findings: ReturnType<typeof decided>['findings']) =>
    findings.filter(({ rule }) => rule === 'no-programme').map(({ weight, source }) => [weight, source.status])
  const only = decided(routeTopic, given({ makerMethods: [] }))
  assert.equal(only.decision, 'hold')
  assert.deepEqual(told(only.findings), [['stop', 'unverified']])
  assert.match(only.findings.find(({ rule }) => rule === 'no-programme')?.says ?? '', /No programme is on file/)
  const also = decided(routeTopic, given({ makerMethods: lists('ethyleneOxide') }))
  assert.equal(also.decision, 'ethyleneOxide')
  assert.equal(told(also.findings).length, 1)
  const picked = decided(routeTopic, given({ makerMethods: lists('ethyleneOxide') }, 'ozone'))
  assert.equal(picked.decision, 'refused')
  const without = decided(routeTopic, { device: { ...heatLabile, makerMethods: lists('ethyleneOxide') } })
  assert.deepEqual(told(without.findings), [])
})

const rows: readonly (readonly [row: string, given: object, decision: string])[] = [
  [
    'M01 (confirmed): trocar that bears heat and moisture → steam',
    { device: { ...trocar, makerMethods: lists('steam', 'ethyleneOxide') } },
    'steam',
  ],
  [
    'M02 (confirmed): telescope, peroxide and gas listed → peroxide, the quickest',
    { device: { ...telescope, makerMethods: lists('hydrogenPeroxide', 'ethyleneOxide') } },
    'hydrogenPeroxide',
  ],
  [
    'M04 (unverified): gastroscope into the peritoneum → sterilised',
    {
      device: gastroscope,
      ask: { site: 'sterileTissue', offers: [{ method: 'ethyleneOxide' }, bath('peraceticAcid')] },
    },
    'ethyleneOxide',
  ],
  [
    'the same gastroscope through the mouth, no gas here → high-level bath',
    { device: gastroscope, ask: { site: 'mucosa', offers: [bath('peraceticAcid')] } },
    'bathDisinfect',
  ],
  [
    'the same registered for both uses, none named → the strictest',
    { device: scopeOfTwoUses, ask: { offers: [{ method: 'ethyleneOxide' }, bath('peraceticAcid')] } },
    'ethyleneOxide',
  ],
  [
    'the same, its use through the mouth named, no gas here → high-level bath',
    { device: scopeOfTwoUses, ask: { use: 'through the mouth', toStore: false, offers: [bath('peraceticAcid')] } },
    'bathDisinfect',
  ],
  [
    'the same, its use in the peritoneum named, no gas here → hold',
    { device: scopeOfTwoUses, ask: { use: 'in the peritoneum', toStore: false, offers: [bath('peraceticAcid')] } },
    'hold',
  ],
  [
    'a use that it is not registered for → the strictest',
    { device: scopeOfTwoUses, ask: { use: 'elsewhere', toStore: false, offers: [bath('peraceticAcid')] } },
    'hold',
  ],
  [
    'ten cycles allowed, nine done → steam',
    { device: { ...trocar, makerMethods: [{ method: 'steam', maxCycles: 10 }] }, ask: { cyclesDone: 9 } },
    'steam',
  ],
  [
    'ten cycles allowed, ten done → hold',
    { device: { ...trocar, makerMethods: [{ method: 'steam', maxCycles: 10 }] }, ask: { cyclesDone: 10 } },
    'hold',
  ],
  [
    'M05 (confirmed, and a proposal): laparoscope, only a high-level bath, policy off → hold',
    { device: { ...telescope, makerMethods: lists('bathDisinfect') }, ask: { offers: [bath('peraceticAcid')] } },
    'hold',
  ],
  [
    'the same with the policy on, used at once → bath, as a deviation',
    {
      device: { ...telescope, makerMethods: lists('bathDisinfect') },
      ask: { hldForLaparoscope: true, toStore: false, offers: [bath('peraceticAcid')] },
    },
    'bathDisinfect',
  ],
  [
    'M07 (confirmed): cotton gauze in peroxide → refused',
    {
      device: { ...trocar, hasCellulose: true, makerMethods: lists('steam', 'hydrogenPeroxide') },
      picked: 'hydrogenPeroxide',
    },
    'refused',
  ],
  [
    'M08 (confirmed): linen in peroxide → refused',
    {
      device: { ...trocar, hasLinen: true, makerMethods: lists('steam', 'hydrogenPeroxide') },
      picked: 'hydrogenPeroxide',
    },
    'refused',
  ],
  [
    'M19 (confirmed): heat-labile PVC, long lumen, no claim fits, gas listed → gas with aeration',
    {
      device: {
        ...heatLabile,
        materials: ['pvc'],
        lumens: [{ material: 'pvc', diameterMm: 2, lengthMm: 1500, openEnds: 2 }],
        makerMethods: lists('hydrogenPeroxide', 'ethyleneOxide'),
      },
      ask: { offers: [{ method: 'ethyleneOxide' }, { method: 'hydrogenPeroxide', claims: [] }] },
    },
    'ethyleneOxide',
  ],
  [
    'M20 (proposal): listed for steam only, gas picked → refused',
    { device: { ...trocar, makerMethods: lists('steam') }, picked: 'ethyleneOxide' },
    'refused',
  ],
  [
    'M22 (secondary): single-use trocar, no licensed route → not reprocessed',
    { device: { ...trocar, singleUse: true, makerMethods: lists('steam') } },
    'doNotReprocess',
  ],
  [
    'M23 (unverified): powder that bears heat → dry heat',
    {
      device: {
        ...trocar,
        hasPowder: true,
        makerMethods: lists('steam', 'dryHeat', 'ethyleneOxide', 'hydrogenPeroxide'),
      },
    },
    'dryHeat',
  ],
  [
    'M25 (secondary): after brain of sporadic disease, cleanable → steam, 134 °C, 18 min',
    {
      device: { ...trocar, cleanable: true, makerMethods: lists('steam', 'hydrogenPeroxide') },
      ask: { prion: { patient: 'sporadic', tissue: 'high' } },
    },
    'steam',
  ],
  [
    'M26 (secondary): the same, not cleanable → discard',
    {
      device: { ...trocar, cleanable: false, makerMethods: lists('steam') },
      ask: { prion: { patient: 'sporadic', tissue: 'high' } },
    },
    'discard',
  ],
  [
    'M28 (secondary, tissues unverified): sporadic disease, cholecystectomy → routine steam',
    {
      device: { ...trocar, makerMethods: lists('steam') },
      ask: { prion: { patient: 'sporadic', tissue: 'none' } },
    },
    'steam',
  ],
  [
    'M29 (unverified): an implant into a glutaraldehyde bath → refused',
    {
      device: { ...trocar, implant: true, makerMethods: lists('steam', 'bathDisinfect') },
      picked: 'bathDisinfect',
      ask: { offers: [bath('glutaraldehyde')] },
    },
    'refused',
  ],
  [
    'M31 (confirmed): tolerant mycobacteria, glutaraldehyde → refused',
    {
      device: { ...gastroscope },
      picked: 'bathDisinfect',
      ask: { mycobacteriaOutbreak: true, offers: [bath('glutaraldehyde')] },
    },
    'refused',
  ],
  [
    'M31: the same, ortho-phthalaldehyde → allowed',
    {
      device: { ...gastroscope },
      picked: 'bathDisinfect',
      ask: { mycobacteriaOutbreak: true, offers: [bath('glutaraldehyde'), bath('orthoPhthalaldehyde')] },
    },
    'allowed',
  ],
  [
    'M32 (confirmed): cystoscope, bladder cancer, ortho-phthalaldehyde → refused',
    {
      device: { ...gastroscope, domain: 'urology' },
      picked: 'bathDisinfect',
      ask: { bladderCancer: true, offers: [bath('orthoPhthalaldehyde')] },
    },
    'refused',
  ],
  ['no instructions on file → hold', { device: trocar }, 'hold'],
  ['an empty list of the maker allows nothing → hold', { device: { ...trocar, makerMethods: [] } }, 'hold'],
]

for (const [row, given, decision] of rows) {
  test(row, () => assert.equal(decided(routeTopic, given).decision, decision))
}

test('M19: the way by gas says that it is to be aired, and why PVC matters', () => {
  const [, given] = rows.find(([row]) => row.startsWith('M19')) ?? assert.fail()
  assert.match(
    decided(routeTopic, given)
      .findings.map((each) => each.says)
      .join(' '),
    /Aerate for the full time.*PVC/,
  )
})

test('M25: the way by steam names the cycle', () => {
  const [, given] = rows.find(([row]) => row.startsWith('M25')) ?? assert.fail()
  assert.match(
    decided(routeTopic, given)
      .findings.map((each) => each.says)
      .join(' '),
    /134 °C for 18 min/,
  )
})

const claims: readonly (readonly [row: string, given: object, decision: string])[] = [
  [
    'M10 (confirmed): steel 0.7 × 500 mm, claim L3, 10 in the load → fits',
    { lumens: [{ ...steel, diameterMm: 0.7, lengthMm: 500 }], claims: ['L3'], load: { lumens: 9, massKg: 9 } },
    'fits',
  ],
  [
    'M11 (confirmed): 501 mm → does not fit',
    { lumens: [{ ...steel, diameterMm: 0.7, lengthMm: 501 }], claims: ['L3'], load: { lumens: 9, massKg: 9 } },
    'doesNotFit',
  ],
  [
    'M13 (confirmed, and a proposal): 1.0 × 200 mm against L1 and L2 → does not fit',
    { lumens: [{ ...steel, diameterMm: 1, lengthMm: 200 }], claims: ['L1', 'L2'] },
    'doesNotFit',
  ],
  [
    'M14 (confirmed): 1.0 × 125 mm → fits L1',
    { lumens: [{ ...steel, diameterMm: 1, lengthMm: 125 }], claims: ['L1', 'L2'] },
    'fits',
  ],
  [
    'M16 (confirmed): three channels of 1.00 × 310 mm, L7 → fits',
    { lumens: [{ ...steel, diameterMm: 1, lengthMm: 310, channels: 3 }], claims: ['L7'] },
    'fits',
  ],
  [
    'M17 (confirmed): three channels of 0.90 × 300 mm → does not fit',
    { lumens: [{ ...steel, diameterMm: 0.9, lengthMm: 300, channels: 3 }], claims: ['L7'] },
    'doesNotFit',
  ],
  [
    'eleven lumens in a load of ten → does not fit',
    { lumens: [{ ...steel, diameterMm: 1, lengthMm: 100 }], claims: ['L1'], load: { lumens: 10, otherDevices: true } },
    'doesNotFit',
  ],
  [
    'ends not stated → hold',
    { lumens: [{ material: 'stainlessSteel', diameterMm: 1, lengthMm: 100 }], claims: ['L1'] },
    'hold',
  ],
]

for (const [row, given, decision] of claims) {
  test(row, () => assert.equal(decided(lumenClaimTopic, given).decision, decision))
}

const prions: readonly (readonly [given: object, decision: string])[] = [
  [{ patient: 'sporadic', tissue: 'high', contact: 'critical', cleanable: true }, 'prionCycle'],
  [{ patient: 'inherited', tissue: 'high', contact: 'semiCritical', cleanable: false }, 'discard'],
  [{ patient: 'sporadic', tissue: 'high', contact: 'critical' }, 'quarantine'],
  [{ patient: 'sporadic', tissue: 'high', contact: 'nonCritical' }, 'routine'],
  [{ patient: 'sporadic', tissue: 'medium', contact: 'critical' }, 'routine'],
  [{ patient: 'variant', tissue: 'medium', contact: 'critical', cleanable: true }, 'discard'],
  [{ patient: 'suspected', tissue: 'high', contact: 'critical', cleanable: true }, 'quarantine'],
  [{ patient: 'suspected', tissue: 'low', contact: 'critical' }, 'routine'],
  [{ patient: 'sporadic', tissue: 'notStated', contact: 'critical' }, 'quarantine'],
  [{ patient: 'noSuspicion', tissue: 'high', contact: 'critical' }, 'routine'],
]

for (const [given, decision] of prions) {
  test(`prion: ${Object.values(given).join(', ')} → ${decision}`, () =>
    assert.equal(decided(prionTopic, given).decision, decision))
}

const urgent = {
  reason: 'droppedOnlyOne',
  sterileDuplicate: false,
  decontaminated: true,
  makerAllows: true,
  validatedContainer: true,
  usedAtOnce: true,
  physicalRecord: true,
  chemicalType: '5',
  recorded: true,
}
const emergency = { emergencyDocumented: true, biological: 'rapidNegative', traceable: true }

const immediates: readonly (readonly [what: string, given: object, decision: string])[] = [
  ['everything met', urgent, 'allowed'],
  ['a sterile duplicate is there', { ...urgent, sterileDuplicate: true }, 'refused'],
  ['the maker is silent', { ...urgent, makerAllows: undefined }, 'hold'],
  ['a late loan set', { ...urgent, reason: 'lateLoan' }, 'refused'],
  ['too few sets', { ...urgent, reason: 'tooFewSets' }, 'refused'],
  ['an indicator of type 4', { ...urgent, chemicalType: '4' }, 'refused'],
  ['prion risk', { ...urgent, prionRisk: true }, 'refused'],
  ['an implant, no emergency', { ...urgent, implant: { ...emergency, emergencyDocumented: false } }, 'refused'],
  ['an implant, documented, rapid result negative', { ...urgent, implant: emergency }, 'allowed'],
  ['an implant, result not read', { ...urgent, implant: { ...emergency, biological: 'running' } }, 'hold'],
]

for (const [what, given, decision] of immediates) {
  test(`immediate use: ${what} → ${decision}`, () => assert.equal(decided(immediateUseTopic, given).decision, decision))
}

test('every topic of the catalogue decides its own example', () => {
  for (const topic of [routeTopic, lumenClaimTopic, prionTopic, immediateUseTopic]) {
    assert.equal(decided(topic, topic.example.given).decision, topic.example.decision, topic.topic)
  }
})

test('a device of several uses is answered for each of them, until one is named', () => {
  const ask = { toStore: false, offers: [{ method: 'ethyleneOxide' }, bath('peraceticAcid')] }
  const says = (more: object) =>
    decided(routeTopic, { device: scopeOfTwoUses, ask: { ...ask, ...more } })
      .findings.filter((each) => each.rule === 'use')
      .map((each) => each.says)
  assert.match(says({})[0] ?? '', /^through the mouth: Semi-critical/)
  assert.match(says({})[1] ?? '', /^in the peritoneum: Critical.*Ethylene oxide/)
  assert.deepEqual(says({ use: 'through the mouth' }), [])
})
