import { z } from 'zod'
import { dValueMinutes } from '#workings/physics/d-value.ts'
import { eoLogReduction, eoZK } from '#workings/physics/eo-lethality.ts'
import { atLeast, atMost } from '#workings/physics/at-most.ts'
import { casePolicy, ChangedLimits } from '../deciding/case-policy.ts'
import { type Decided, defineTopic } from '../deciding/topic.ts'
import { figure } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { decided } from './accepted.ts'
import { immediateUse } from './immediate-use.ts'
import { immediateItems } from './immediate-use-table.ts'
import { formaldehydeFromC, formaldehydeToC } from './limits.ts'
import { cdcSteamTable, formaldehydeTrial, gasSpores, gasWindow, halfCycleRule, peroxideCancelled } from './sources.ts'
import { steamAccepted } from './steam-accepted.ts'
import { steamItems } from './steam-table.ts'
import { dryHeatEnough, ethyleneOxideWindow, peraceticWindow } from './windows.ts'

const celsius = z.number().min(-20).max(400)
const minutes = z.number().min(0).max(10_000)
const known = <T extends z.ZodType>(schema: T) => schema.nullable().default(null)

/** Every question may bring limits that the unit has changed. */
const changed = { limits: ChangedLimits }

const Given = z.discriminatedUnion('method', [
  z.strictObject({
    ...changed,
    method: z.literal('steam'),
    air: z.enum(['gravity', 'prevacuum']),
    item: z.enum(steamItems),
    temperatureC: celsius,
    minutes,
    dryingMinutes: minutes.optional(),
    maker: z.strictObject({ temperatureC: celsius, minutes }).optional(),
  }),
  z.strictObject({
    ...changed,
    method: z.literal('immediateUse'),
    air: z.enum(['gravity', 'prevacuum', 'flushPulse']),
    item: z.enum([...immediateItems, 'complex']),
    temperatureC: celsius,
    minutes,
    reason: z.enum(['urgentNoOther', 'convenience', 'tooFewSets', 'lateLoanSet']).default('urgentNoOther'),
    sterileDuplicate: z.boolean().default(false),
    implant: z.boolean().default(false),
    use: z.enum(['atOnce', 'stored', 'nextPatient']).default('atOnce'),
    makerAllows: z.enum(['yes', 'no', 'notOnFile']).default('yes'),
  }),
  z.strictObject({
    ...changed,
    method: z.literal('ethyleneOxide'),
    mgPerL: known(z.number().min(0).max(10_000)),
    temperatureC: known(celsius),
    relativeHumidityPercent: known(z.number().min(0).max(100)),
    minutes: known(minutes),
  }),
  z.strictObject({
    ...changed,
    method: z.literal('hydrogenPeroxide'),
    outcome: z.enum(['complete', 'cancelled']),
    cause: z.enum(['moisture', 'pressure', 'concentration', 'temperature', 'power', 'operator', 'unknown']).optional(),
  }),
  z.strictObject({
    ...changed,
    method: z.literal('formaldehyde'),
    temperatureC: celsius,
    load: z.enum(['small', 'full']),
    biological: z.enum(['passed', 'failed', 'notRead']).default('notRead'),
  }),
  z.strictObject({ ...changed, method: z.literal('dryHeat'), temperatureC: celsius, minutes }),
  z.strictObject({
    ...changed,
    method: z.literal('peraceticLiquid'),
    percent: known(z.number().min(0).max(100)),
    temperatureC: known(celsius),
    minutes: known(minutes),
  }),
  z.strictObject({
    ...changed,
    method: z.literal('ethyleneOxideLethality'),
    temperatureC: celsius,
    minutes: minutes.optional(),
  }),
  z.strictObject({
    ...changed,
    method: z.literal('halfCycle'),
    halfMinutes: minutes,
    allIndicatorsDead: z.boolean(),
    fullMinutes: minutes.optional(),
  }),
])
type Given = z.infer<typeof Given>

function decide(given: Given): Decided {
  const policy = casePolicy(given.limits)
  switch (given.method) {
    case 'steam': {
      const { accepted, found } = steamAccepted(given, policy)
      return say(accepted ? 'accept' : 'reject', found)
    }
    case 'immediateUse': {
      const { decision, found } = immediateUse(given, policy)
      return say(decision, found)
    }
    case 'ethyleneOxide':
      return byFindings(ethyleneOxideWindow(given, policy))
    case 'hydrogenPeroxide':
      return given.outcome === 'complete' ? say('accept', []) : say('reject', [cancelled])
    case 'formaldehyde':
      return formaldehyde(given, policy)
    case 'dryHeat':
      return byFindings(dryHeatEnough({ temperatureC: given.temperatureC, plateauMinutes: given.minutes }, policy))
    case 'peraceticLiquid':
      return byFindings(peraceticWindow(given, policy))
    case 'ethyleneOxideLethality':
      return lethality(given)
    case 'halfCycle':
      return halfCycle(given)
  }
}

const say = (decision: string, found: readonly Found[]) => decided('cycle', decision, found)

function byFindings(found: readonly Found[]): Decided {
  if (found.some((each) => each.weight === 'stop')) return say('reject', found)
  return say(found.some((each) => each.weight === 'notEvaluable') ? 'hold' : 'accept', found)
}

const cancelled: Found = {
  weight: 'stop',
  says: 'A cancelled cycle sterilised nothing. Find the cause, dry the instruments, pack them again with new wraps and indicators, run again.',
  source: peroxideCancelled,
}

function formaldehyde(given: Extract<Given, { method: 'formaldehyde' }>, policy: Policy): Decided {
  const from = policy.limit(formaldehydeFromC)
  const to = policy.limit(formaldehydeToC)
  const limit = `from ${from.value} to ${to.value} °C`
  const measured = `${figure(given.temperatureC)} °C`
  if (given.biological === 'failed') {
    return say('reject', [{ weight: 'stop', says: 'Spores survived. Nothing is sterile.', source: formaldehydeTrial }])
  }
  if (!atMost(given.temperatureC, to.value)) {
    return say('reject', [
      { weight: 'stop', says: 'The exposure was hotter than the method allows.', measured, limit, source: to.source },
    ])
  }
  if (atLeast(given.temperatureC, from.value)) return say('accept', [])
  if (given.biological === 'passed') {
    const says = 'So cold a programme is accepted only because the spores in this load died.'
    return say('accept', [{ weight: 'caution', says, measured, limit, source: formaldehydeTrial }])
  }
  const says =
    'So cold a programme failed with a full load. Do not accept this one before spores that were inside it have been read and are dead.'
  return say('hold', [{ weight: 'stop', says, measured, limit, source: formaldehydeTrial }])
}

function lethality({ temperatureC, minutes: time }: Extract<Given, { method: 'ethyleneOxideLethality' }>): Decided {
  const d = dValueMinutes(15, 30, eoZK, temperatureC)
  const note = (says: string, measured: string): Found => ({ weight: 'note', says, measured, source: gasSpores })
  return say('information', [
    note('Minutes for one tenth of the spores, at 60 % humidity.', `${figure(d)} min`),
    ...(time === undefined
      ? []
      : [note('Powers of ten of spores killed.', figure(eoLogReduction([{ minutes: time, temperatureC }])))]),
    {
      weight: 'caution',
      says: 'For information only: a load is never released by a computed kill.',
      source: gasWindow,
    },
  ])
}

function halfCycle({ halfMinutes, allIndicatorsDead, fullMinutes }: Extract<Given, { method: 'halfCycle' }>): Decided {
  if (!allIndicatorsDead) {
    const says = 'Spores survived the half cycle: it proves nothing. Lengthen it and test again.'
    return say('reject', [{ weight: 'stop', says, source: halfCycleRule }])
  }
  const limit = `at least ${figure(2 * halfMinutes)} min`
  if (fullMinutes === undefined) {
    return say('information', [
      { weight: 'note', says: 'The full exposure is at least twice the half cycle.', limit, source: halfCycleRule },
    ])
  }
  if (atLeast(fullMinutes, 2 * halfMinutes)) return say('accept', [])
  const says = 'The full exposure is shorter than two half cycles.'
  return say('reject', [{ weight: 'stop', says, measured: `${figure(fullMinutes)} min`, limit, source: halfCycleRule }])
}

export const cycleTopic = defineTopic({
  topic: 'cycle',
  title: 'Is this cycle good enough?',
  decisions: {
    accept: 'The figures of the cycle meet its limits; the other indicators of the load still decide.',
    reject: 'Not sterile, or not to be used: pack again and run again.',
    hold: 'Kept back until what is missing is known.',
    notAllowed: 'This must not be done at all.',
    information: 'A figure, no decision.',
  },
  given: Given,
  sources: [cdcSteamTable, gasWindow],
  example: {
    given: {
      method: 'steam',
      air: 'gravity',
      item: 'wrappedInstruments',
      temperatureC: 132,
      minutes: 14,
      dryingMinutes: 20,
    },
    decision: 'reject',
  },
  decide,
})
