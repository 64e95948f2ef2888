import assert from 'node:assert/strict'
import { test } from 'node:test'
import {
  type Arbitrary,
  array,
  assert as hold,
  boolean,
  constant,
  constantFrom,
  double,
  integer,
  nat,
  oneof,
  option,
  property,
  record,
  sample,
  subarray,
  tuple,
} from 'fast-check'
import { knownAs } from '#road/rule-harness.ts'
import { contacts, domains, type Lumen, materials, sites } from '../attributes.ts'
import { drawsVacuum, immerses, type Method, methodFacts, methods } from '../methods.ts'
import { bathAgents, type MethodOffer, type RouteAsk, type RouteDevice } from './ask.ts'
import { publicClaims } from './claims.ts'
import { fitsClaim } from './fits-claim.ts'
import { notOffered } from './not-offered.ts'
import { type Route, routeOf } from './route.ts'
import { routeOfSet } from './set-route.ts'

const maybe = <T>(of: Arbitrary<T>) => option(of, { nil: undefined })
const yesNo = maybe(boolean())
/** Mostly not stated, so that whole devices often have a way. */
const seldom = oneof({ weight: 8, arbitrary: constant(undefined) }, { weight: 2, arbitrary: boolean() })
const rarely = integer({ min: 0, max: 7 }).map((n) => n === 0)

const anyLumen: Arbitrary<Lumen> = record({
  diameterMm: double({ min: 0.3, max: 12, noNaN: true }),
  lengthMm: double({ min: 20, max: 3500, noNaN: true }),
  openEnds: maybe(constantFrom(1 as const, 2 as const)),
  material: maybe(constantFrom(...materials)),
  channels: maybe(integer({ min: 1, max: 4 })),
  flexible: yesNo,
})

const anyDevice: Arbitrary<RouteDevice> = record({
  name: constant('Device'),
  contact: constantFrom(...contacts),
  steam: constantFrom('allowed' as const, 'barred' as const, 'noInstructionsOnFile' as const),
  lumens: oneof(array(anyLumen, { maxLength: 0 }), array(anyLumen, { maxLength: 3 })),
  parts: constant(1),
  insulated: boolean(),
  optic: boolean(),
  singleUse: rarely,
  licensedRoute: maybe(constant('licence 1')),
  makerMethods: maybe(
    array(
      record({
        method: constantFrom(...methods),
        maxTemperatureC: maybe(integer({ min: 20, max: 200 })),
        maxCycles: maybe(integer({ min: 1, max: 300 })),
        programs: maybe(constantFrom(['a'], ['b'], ['a', 'b'])),
      }),
      { maxLength: 8 },
    ),
  ),
  heatStable134: seldom,
  moistureStable: seldom,
  vacuumStable: seldom,
  immersible: yesNo,
  cleanable: yesNo,
  hasCellulose: seldom,
  hasLinen: seldom,
  hasLiquidOrOil: seldom,
  hasPowder: seldom,
  closedAirSpace: seldom,
  materials: maybe(array(constantFrom(...materials), { maxLength: 4 })),
  battery: seldom,
  electronics: seldom,
  powerTool: seldom,
  implant: seldom,
  massKg: maybe(double({ min: 0.1, max: 15, noNaN: true })),
  domain: maybe(constantFrom(...domains)),
})

const anyOffer = (method: Method): Arbitrary<MethodOffer> =>
  record({
    method: constant(method),
    owned: rarely.map((not) => !not),
    temperatureC: maybe(integer({ min: 20, max: 180 })),
    program: maybe(constantFrom('a', 'b')),
    holdMinutes: maybe(integer({ min: 1, max: 60 })),
    airRemoval: maybe(constantFrom('dynamic' as const, 'gravity' as const)),
    claims: maybe(subarray([...publicClaims])),
    maxLoadKg: maybe(integer({ min: 1, max: 20 })),
    agent: maybe(constantFrom(...bathAgents)),
  })

const anyAsk: Arbitrary<RouteAsk> = record({
  site: maybe(constantFrom(...sites)),
  toStore: boolean(),
  prion: maybe(
    record({
      patient: constantFrom(
        'noSuspicion' as const,
        'noSuspicion' as const,
        'suspected' as const,
        'sporadic' as const,
        'variant' as const,
      ),
      tissue: constantFrom('high' as const, 'medium' as const, 'low' as const, 'none' as const, 'notStated' as const),
    }),
  ),
  mycobacteriaOutbreak: seldom,
  bladderCancer: seldom,
  load: maybe(
    record({
      lumens: nat(12),
      massKg: maybe(double({ min: 0.1, max: 20, noNaN: true })),
      otherDevices: boolean(),
    }),
  ),
  cyclesDone: maybe(nat(300)),
  hldForLaparoscope: boolean(),
  offers: tuple(...methods.map(anyOffer)).map((offers) => [...offers]),
})

/** What an open method would break, read off the device without any rule of the route. */
function violations(device: RouteDevice, ask: RouteAsk, route: Route): string[] {
  return route.methods
    .filter((each) => each.standing === 'allowed')
    .flatMap(({ offer }) => {
      const { method } = offer
      const lines = device.makerMethods?.filter((each) => each.method === method)
      const broken: [string, boolean][] = [
        [
          'not on the list',
          lines === undefined ? method !== 'steam' || device.steam !== 'allowed' : lines.length === 0,
        ],
        ['too hot', (method === 'steam' || method === 'dryHeat') && device.heatStable134 === false],
        ['too wet', methodFacts[method].wet && device.moistureStable === false],
        ['under liquid', immerses(method) && device.immersible !== true],
        [
          'vacuum',
          drawsVacuum(method) &&
            device.vacuumStable === false &&
            !(method === 'steam' && offer.airRemoval === 'gravity'),
        ],
        ['cellulose', method === 'hydrogenPeroxide' && (device.hasCellulose === true || device.hasLinen === true)],
        ['oil or powder', method !== 'dryHeat' && (device.hasLiquidOrOil === true || device.hasPowder === true)],
        ['implant in a bath', immerses(method) && device.implant === true],
        ['single use', device.singleUse && device.licensedRoute === undefined],
        ['not owned', !offer.owned],
        [
          'cycles',
          lines !== undefined &&
            lines.length > 0 &&
            lines.every((line) => line.maxCycles !== undefined && (ask.cyclesDone ?? 0) >= line.maxCycles),
        ],
        [
          'battery',
          device.battery === true && (immerses(method) || method === 'dryHeat' || method === 'ethyleneOxide'),
        ],
        [
          'outbreak',
          ask.mycobacteriaOutbreak === true && offer.agent === 'glutaraldehyde' && method.startsWith('bath'),
        ],
        [
          'bladder cancer',
          ask.bladderCancer === true && offer.agent === 'orthoPhthalaldehyde' && method.startsWith('bath'),
        ],
        [
          'critical, not sterile',
          route.contact === 'critical' && method === 'bathDisinfect' && !(device.optic && ask.hldForLaparoscope),
        ],
        ['stored wet', route.contact === 'critical' && ask.toStore && immerses(method)],
        [
          'a pair was traded',
          method === 'hydrogenPeroxide' &&
            device.lumens.length > 0 &&
            !(offer.claims ?? []).some((claim) =>
              device.lumens.every(
                (lumen) => lumen.diameterMm >= claim.minDiameterMm && lumen.lengthMm <= claim.maxLengthMm,
              ),
            ),
        ],
      ]
      return broken.filter(([, is]) => is).map(([what]) => `${method}: ${what}`)
    })
}

const options = { numRuns: 3000, seed: 20261125 }

test('no open method breaks a limit of its device, over random catalogues', () => {
  hold(
    property(anyDevice, anyAsk, (device, ask) => {
      assert.deepEqual(violations(device, ask, routeOf(device, ask)), [])
    }),
    options,
  )
})

test('random catalogues do open methods: the property above is not empty', () => {
  const sampled = sample(tuple(anyDevice, anyAsk), { numRuns: 3000, seed: 20261125 })
  const open = sampled.flatMap(([device, ask]) =>
    routeOf(device, ask).methods.filter((each) => each.standing === 'allowed'),
  )
  for (const method of methods) assert.ok(open.filter((each) => each.offer.method === method).length > 2, method)
})

test('every method has a reason, every reason a source; what is closed says why', () => {
  hold(
    property(anyDevice, anyAsk, (device, ask) => {
      const route = routeOf(device, ask)
      for (const { standing, reasons } of route.methods) {
        const heavy = reasons.filter((each) => each.weight === (standing === 'barred' ? 'stop' : 'notEvaluable'))
        assert.ok(reasons.length > 0 && (standing === 'allowed' || heavy.length > 0))
        for (const { source, says } of reasons) assert.ok(source.title !== '' && says !== '')
      }
      assert.ok(route.decision.why.source.title !== '')
      if (route.decision.kind === 'go') {
        const { offer } = route.decision
        assert.equal(route.methods.find((each) => each.offer === offer)?.standing, 'allowed')
      }
    }),
    options,
  )
})

/** Each turns a device into the same with one limit more. */
const stricter: readonly ((device: RouteDevice) => RouteDevice)[] = [
  (device) => ({ ...device, heatStable134: false }),
  (device) => ({ ...device, moistureStable: false }),
  (device) => ({ ...device, vacuumStable: false }),
  (device) => ({ ...device, immersible: false }),
  (device) => ({ ...device, hasCellulose: true }),
  (device) => ({ ...device, hasLinen: true }),
  (device) => ({ ...device, hasLiquidOrOil: true }),
  (device) => ({ ...device, hasPowder: true }),
  (device) => ({ ...device, closedAirSpace: true }),
  (device) => ({ ...device, battery: true }),
  (device) => ({ ...device, electronics: true }),
  (device) => ({ ...device, powerTool: true }),
  (device) => ({ ...device, implant: true }),
  (device) => ({ ...device, singleUse: true, licensedRoute: undefined }),
  (device) => ({ ...device, domain: 'urology' }),
  (device) => ({ ...device, materials: [...(device.materials ?? []), 'brass', 'pvc'] }),
  (device) => ({ ...device, lumens: [...device.lumens, { diameterMm: 0.5, lengthMm: 900 }] }),
  (device) => ({ ...device, makerMethods: (device.makerMethods ?? []).slice(1) }),
  (device) =>
    device.makerMethods === undefined
      ? device
      : { ...device, makerMethods: device.makerMethods.map((each) => ({ ...each, maxTemperatureC: 25 })) },
]

test('one limit more never opens a method', () => {
  hold(
    property(anyDevice, anyAsk, constantFrom(...stricter), (device, ask, add) => {
      const before = routeOf(device, ask)
      const after = routeOf(add(device), ask)
      for (const [place, answer] of after.methods.entries()) {
        if (answer.standing === 'allowed') assert.equal(before.methods[place]?.standing, 'allowed', answer.offer.method)
      }
    }),
    options,
  )
})

test('a claim that fits keeps fitting a lumen that is wider and shorter, and never one that is longer than it says', () => {
  hold(
    property(anyLumen, constantFrom(...publicClaims), double({ min: 0, max: 5, noNaN: true }), (lumen, claim, more) => {
      const around = { lumens: 0, massKg: 1, otherDevices: false }
      if (fitsClaim([lumen], claim, around).kind === 'fits') {
        const easier = { ...lumen, diameterMm: lumen.diameterMm + more, lengthMm: lumen.lengthMm / (1 + more) }
        assert.equal(fitsClaim([easier], claim, around).kind, 'fits')
      }
      const long = { ...lumen, diameterMm: lumen.diameterMm + 100, lengthMm: claim.maxLengthMm + 0.001 + more }
      assert.equal(fitsClaim([long], claim, around).kind, 'doesNotFit')
    }),
    options,
  )
})

const offers: MethodOffer[] = [
  { method: 'steam', owned: true },
  { method: 'hydrogenPeroxide', owned: true },
]
const ask: RouteAsk = { toStore: true, hldForLaparoscope: false, offers }
const device = (name: string, ...listed: Method[]) => ({
  name,
  device: knownAs('device', 'device:d', { name, makerMethods: listed.map((method) => ({ method })) }),
})

test('a set goes together by what is open to all of it', () => {
  const { decision } = routeOfSet([device('Grasper', 'steam'), device('Scissors', 'steam', 'hydrogenPeroxide')], ask)
  assert.ok(decision.kind === 'together' && decision.offer.method === 'steam')
})

test('a set whose parts need different ways is split, and the parts are named', () => {
  const { decision, methods } = routeOfSet([device('Grasper', 'steam'), device('Camera', 'hydrogenPeroxide')], ask)
  assert.ok(decision.kind === 'split')
  assert.match(decision.why.says, /Steam: Grasper; Hydrogen peroxide gas: Camera/)
  assert.deepEqual(
    methods.map((each) => each.standing),
    ['barred', 'barred'],
  )
})

test('a set with a device that no way is open to is refused, and the device is named', () => {
  const { decision } = routeOfSet([device('Grasper', 'steam'), device('Unknown thing')], ask)
  assert.ok(decision.kind === 'refuse')
  assert.deepEqual(decision.stuck, ['Unknown thing'])
})

test('a set may go together by a lesser way, and says which parts bear steam', () => {
  const { decision } = routeOfSet(
    [device('Grasper', 'steam', 'hydrogenPeroxide'), device('Camera', 'hydrogenPeroxide')],
    ask,
  )
  assert.ok(decision.kind === 'together' && decision.offer.method === 'hydrogenPeroxide')
  assert.match(decision.why.says, /better packed apart: Steam: Grasper/)
})

test('formaldehyde tablets are not offered, and it is said why', () => {
  assert.match(notOffered[0]?.why ?? '', /neither sterile nor disinfected/)
})

test('an old registration, with steam alone said, still routes', () => {
  const old = (steam: 'allowed' | 'barred' | 'noInstructionsOnFile') =>
    routeOf(knownAs('device', 'device:d', { steam }), ask).decision.kind
  assert.deepEqual([old('allowed'), old('barred'), old('noInstructionsOnFile')], ['go', 'hold', 'hold'])
})
