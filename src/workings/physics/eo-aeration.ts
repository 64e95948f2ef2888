import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { atMost } from './at-most.ts'
import { interpolatedAerationHours, listedPairs, metPair } from './aeration-pairs.ts'
import { temperatureField } from './fields.ts'
import { exponentialContent, hoursToLimit, sheetShareLeft } from './residue-decay.ts'
import { aerationSources } from './sources.ts'

const hoursField = z.number().min(0).max(100_000)
const contentField = z.number().min(0).max(1e9)
const halfLifeField = z.number().min(1e-6).max(1e6)

const Pair = z.strictObject({ temperatureC: temperatureField, hours: hoursField.positive() })

const Pairs = z.strictObject({
  model: z.literal('pairs').describe('has a listed pair been met? The only model that decides'),
  temperatureC: temperatureField.describe('lowest temperature kept throughout, °C'),
  hours: hoursField.describe('time at that temperature, h'),
  makerHours: hoursField.default(0).describe("the maker's longer time at this temperature, h"),
  pairs: z
    .array(Pair)
    .min(1)
    .max(100)
    .default([...listedPairs])
    .describe('the pairs the unit has adopted'),
})

const OneExponential = z.strictObject({
  model: z.literal('oneExponential').describe('one half-life'),
  start: contentField.describe('content at the start, in any unit'),
  halfLifeHours: halfLifeField.describe('half-life, h'),
  hours: hoursField.describe('time of aeration, h'),
  limit: contentField.positive().describe('content allowed, same unit'),
})

const TwoExponentials = z.strictObject({
  model: z.literal('twoExponentials').describe('a fast part that diffuses and a slow part that is bound'),
  fastStart: contentField.describe('fast part at the start'),
  fastHalfLifeHours: halfLifeField.describe('its half-life, h'),
  slowStart: contentField.describe('slow part at the start, same unit'),
  slowHalfLifeHours: halfLifeField.describe('its half-life, h'),
  hours: hoursField.describe('time of aeration, h'),
  limit: contentField.positive().describe('content allowed, same unit'),
})

const PlaneSheet = z.strictObject({
  model: z.literal('planeSheet').describe('diffusion out of a sheet open on both faces'),
  start: contentField.describe('content at the start, in any unit'),
  thicknessMm: z.number().min(0.001).max(1000).describe('thickness, mm'),
  diffusionCm2PerS: z.number().min(1e-14).max(1).describe('diffusion coefficient, cm²/s'),
  hours: hoursField.describe('time of aeration, h'),
  limit: contentField.positive().describe('content allowed, same unit'),
})

const Input = z.discriminatedUnion('model', [Pairs, OneExponential, TwoExponentials, PlaneSheet])
type DecayInput = z.infer<typeof OneExponential | typeof TwoExponentials | typeof PlaneSheet>

const Decision = z.strictObject({
  kind: z.literal('decision'),
  result: z.enum(['met', 'notMet']).describe('whether a listed pair is met'),
  pair: Pair.nullable().describe('the pair that decided; null when none is met'),
  adviceHours: z.number().nullable().describe('interpolated time at this temperature, h: advice, no release criterion'),
  says: z.string().describe('the same for people'),
})

const Estimate = z.strictObject({
  kind: z.literal('estimate'),
  content: z.number().describe('content after the hours, in the unit of the input'),
  belowLimit: z.boolean().describe('whether the model puts the content at or below the limit'),
  hoursToLimit: z.number().nullable().describe('first hour at or below the limit; null beyond 100000 h'),
  use: z.literal('information only, not a release criterion').describe('what the figure may be used for'),
})

const Output = z.discriminatedUnion('kind', [Decision, Estimate])

export const eoAerationWorking = defineWorking({
  id: 'eo-aeration',
  title: 'Aeration after ethylene oxide',
  group: 'physics',
  method:
    'model pairs: met when a listed pair (temperature, hours) is met, 60 degC 8 h, 50 degC 12 h or 20 degC 7 days, and the time the ' +
    'maker asks for; log-linear interpolation between pairs is shown as advice only. The decay models estimate a content: one ' +
    "half-life; two half-lives; Crank's series for a plane sheet open on both faces.",
  validity:
    'Only a listed pair releases. The decay models need constants measured on the article and are information only.',
  sources: aerationSources,
  input: Input,
  output: Output,
  example: {
    input: { model: 'pairs', temperatureC: 40, hours: 29 },
    output: {
      kind: 'decision',
      result: 'notMet',
      pair: null,
      adviceHours: 28.921707170102763,
      says: 'not met: no listed pair is met by 29 h at 40 °C; an interpolated time is advice, not a release criterion',
    },
  },
  work: (input): z.infer<typeof Output> => (input.model === 'pairs' ? decide(input) : estimate(input)),
})

function decide({ temperatureC, hours, makerHours, pairs }: z.infer<typeof Pairs>): z.infer<typeof Decision> {
  const pair = atMost(makerHours, hours) ? metPair(temperatureC, hours, pairs) : undefined
  const adviceHours = interpolatedAerationHours(temperatureC, pairs)
  const says = pair
    ? `met: at least ${pair.hours} h at ${pair.temperatureC} °C or warmer`
    : `not met: no listed pair is met by ${hours} h at ${temperatureC} °C; an interpolated time is advice, not a release criterion`
  return { kind: 'decision', result: pair ? 'met' : 'notMet', pair: pair ?? null, adviceHours, says }
}

function estimate(input: DecayInput): z.infer<typeof Estimate> {
  const content = contentOf(input)
  const now = content(input.hours)
  return {
    kind: 'estimate',
    content: now,
    belowLimit: atMost(now, input.limit),
    hoursToLimit: hoursToLimit(content, input.limit),
    use: 'information only, not a release criterion',
  }
}

function contentOf(input: DecayInput): (hours: number) => number {
  switch (input.model) {
    case 'oneExponential':
      return (hours) => exponentialContent(input.start, input.halfLifeHours, hours)
    case 'twoExponentials':
      return (hours) =>
        exponentialContent(input.fastStart, input.fastHalfLifeHours, hours) +
        exponentialContent(input.slowStart, input.slowHalfLifeHours, hours)
    case 'planeSheet':
      return (hours) => input.start * sheetShareLeft(input.thicknessMm, input.diffusionCm2PerS, hours)
  }
}
