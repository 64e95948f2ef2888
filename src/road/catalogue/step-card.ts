import { citeSource, type Source } from '#units/source.ts'
import { flushSeconds } from '#workings/physics/flush-time.ts'
import { lumenVolumeMl } from '#workings/physics/lumen-volume.ts'
import { insulationStudy, precleanBelowC, st79Cleaning } from '../cleaning/limits.ts'
import { figure } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Lumen } from './attributes.ts'
import {
  brushLongerMm,
  brushWiderPercent,
  enzymaticMinutes,
  flushFlow,
  flushVolumes,
  ultrasoundMinutes,
} from './limits.ts'
import { methodFacts } from './methods.ts'
import type { RouteDevice } from './route/ask.ts'
import type { Route } from './route/route.ts'
import { makersWord, methodTable } from './sources.ts'

/** The stages of a card, in the order in which hands do them. */
export const cardSteps = [
  'takeApart',
  'soak',
  'brush',
  'flush',
  'ultrasound',
  'rinse',
  'dry',
  'inspect',
  'insulation',
  'function',
  'pack',
  'route',
] as const
export type CardStep = (typeof cardSteps)[number]

export interface CardLine {
  readonly step: CardStep
  readonly says: string
  readonly source: Source
  /** The working that gave the figure, by its id. */
  readonly working?: string
}

export interface StepCard {
  readonly name: string
  readonly lines: readonly CardLine[]
  /** The lines whose source nobody has confirmed. */
  readonly unverified: number
}

/** The steps of one device, from the catalogue alone. The instructions of its maker decide over each line. */
export function stepCard(device: RouteDevice, route: Route, policy: Policy): StepCard {
  const lines = [
    ...takingApart(device),
    ...soaking(device, policy),
    ...device.lumens.flatMap((lumen, place) => lumenLines(lumen, nameOfLumen(device, place), policy)),
    ...ultrasound(device, policy),
    ...rinsing(device, route),
    ...looking(device),
    ...packing(route),
    ...forUse(device, route),
  ]
  return { name: device.name, lines, unverified: lines.filter((line) => line.source.status === 'unverified').length }
}

/** `says` with its source behind it, for a terminal. */
export function cardText(line: CardLine): string {
  return `${line.says} [${citeSource(line.source)}]`
}

const unverifiedCleaning: Source = {
  title: 'Practice of reprocessing units, from memory',
  status: 'unverified',
}

function takingApart({ parts, partNames }: RouteDevice): readonly CardLine[] {
  const step = 'takeApart'
  if (partNames !== undefined && partNames.length > 0) {
    return partNames.map((part, place) => ({ step, says: `${place + 1}. ${part}`, source: makersWord }))
  }
  if (parts === 1) return [{ step, says: 'One piece. Open every joint and tap.', source: makersWord }]
  return [{ step, says: `${parts} parts; their names are not on file.`, source: makersWord }]
}

function soaking(device: RouteDevice, policy: Policy): readonly CardLine[] {
  const minutes = policy.limit(enzymaticMinutes)
  const water = policy.limit(precleanBelowC)
  if (device.immersible === false) {
    return [{ step: 'soak', says: 'Not under liquid: wipe with a damp cloth and detergent.', source: makersWord }]
  }
  const unsure =
    device.immersible === undefined ? ' Whether it may be put under liquid is not stated: ask the maker.' : ''
  return [
    {
      step: 'soak',
      says: `Enzymatic soak, ${minutes.value} min or more, lumens filled.${unsure}`,
      source: minutes.source,
    },
    { step: 'soak', says: `Water below ${water.value} °C.`, source: water.source },
  ]
}

function nameOfLumen({ lumens }: RouteDevice, place: number): string {
  return lumens.length === 1 ? 'Lumen' : `Lumen ${place + 1}`
}

function lumenLines(lumen: Lumen, name: string, policy: Policy): readonly CardLine[] {
  const wider = policy.limit(brushWiderPercent)
  const longer = policy.limit(brushLongerMm)
  const volumes = policy.limit(flushVolumes)
  const flow = policy.limit(flushFlow)
  const { diameterMm, lengthMm, channels = 1 } = lumen
  const size = `${diameterMm} mm × ${lengthMm} mm${channels > 1 ? `, ${channels} channels` : ''}`
  const brush = `${figure(diameterMm * (1 + wider.value / 100), 1)} mm`
  const reach = lumen.openEnds === 1 ? 'down to the closed end' : 'until it shows at the far end'
  const volume = lumenVolumeMl(diameterMm, lengthMm)
  const flush = volume * volumes.value
  const seconds = flushSeconds(volume, flow.value, volumes.value)
  return [
    {
      step: 'brush',
      says: `${name} ${size}: brush of ${brush}, at least ${figure(lengthMm + longer.value, 0)} mm long, ${reach}.`,
      source: wider.source.status === 'unverified' ? wider.source : longer.source,
    },
    {
      step: 'flush',
      says: `${name} holds ${figure(volume)} mL: flush ${figure(flush, 1)} mL${channels > 1 ? ' through each channel' : ''}, ${volumes.value} times its volume.`,
      source: volumes.source,
      working: 'lumen-volume',
    },
    {
      step: 'flush',
      says: `${name}: ${figure(Math.ceil(seconds), 0)} s or more at ${flow.value} mL/min.`,
      source: flow.source,
      working: 'flush-time',
    },
  ]
}

function ultrasound(device: RouteDevice, policy: Policy): readonly CardLine[] {
  const step = 'ultrasound'
  const { value, source } = policy.limit(ultrasoundMinutes)
  if (device.ultrasoundAllowed === false)
    return [{ step, says: 'No ultrasound: the maker bars it.', source: makersWord }]
  if (
    device.ultrasoundAllowed === undefined &&
    (device.optic || device.electronics === true || device.powerTool === true)
  ) {
    return [
      {
        step,
        says: 'No ultrasound for optics, circuits and motors, unless the maker allows it.',
        source: unverifiedCleaning,
      },
    ]
  }
  if (device.immersible === false) return [{ step, says: 'No ultrasound: not under liquid.', source: makersWord }]
  return [{ step, says: `Ultrasound ${value} min or more, not above 50 °C, joints open, lumens filled.`, source }]
}

function rinsing(device: RouteDevice, route: Route): readonly CardLine[] {
  const bathed = route.decision.kind === 'go' && !methodFacts[route.decision.offer.method].stored
  const rinse: CardLine = bathed
    ? {
        step: 'rinse',
        says: 'After the bath: sterile or finely filtered water, each rinse fresh.',
        source: unverifiedCleaning,
      }
    : { step: 'rinse', says: 'Last rinse in purified water.', source: unverifiedCleaning }
  const dry = 'Dry with a lint-free cloth'
  return [
    rinse,
    {
      step: 'dry',
      says: device.lumens.length > 0 ? `${dry} and filtered air through each lumen, until no drop comes.` : `${dry}.`,
      source: unverifiedCleaning,
    },
  ]
}

function looking(device: RouteDevice): readonly CardLine[] {
  const points = [
    'Under magnification and good light: joints, teeth, edges.',
    ...(device.lumens.length > 0 ? ['Look through each lumen, or brush again: the brush must come out clean.'] : []),
    ...(device.optic ? ['Look through the optic: clear, no fibre broken, window whole.'] : []),
    ...(device.insulated ? ['Insulation: no crack, bubble or gap at the tip and the handle.'] : []),
  ]
  return [
    ...points.map((says): CardLine => ({ step: 'inspect', says, source: st79Cleaning })),
    ...(device.insulated
      ? [
          {
            step: 'insulation' as const,
            says: 'Test the insulation with high voltage, along its whole length.',
            source: insulationStudy,
          },
          {
            step: 'insulation' as const,
            says: 'Tester at 2.5 to 4.2 kV, or as the maker says.',
            source: { title: 'Voltage of insulation testers, from memory', status: 'unverified' as const },
          },
        ]
      : []),
    { step: 'function', says: functionTest(device), source: makersWord },
  ]
}

function functionTest(device: RouteDevice): string {
  const tests = [
    ...(device.parts > 1 ? ['put together and move every part'] : ['move every joint and lock']),
    ...(device.optic ? ['check the picture'] : []),
    ...(device.powerTool === true || device.battery === true ? ['run it'] : []),
  ]
  const text = tests.join(', ')
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}. What does not work is repaired or retired.`
}

/** A device of several uses has several cards: this one says which use it is for. */
function forUse({ uses = [] }: RouteDevice, { contactWhy }: Route): readonly CardLine[] {
  return uses.length === 0 ? [] : [{ step: 'route', says: contactWhy.says, source: contactWhy.source }]
}

function packing({ decision, methods }: Route): readonly CardLine[] {
  if (decision.kind !== 'go') return [{ step: 'route', says: decision.why.says, source: decision.why.source }]
  const { method } = decision.offer
  const { name } = methodFacts[method]
  const cautions = methods.find((each) => each.offer === decision.offer)?.reasons ?? []
  const wrap: CardLine =
    method === 'hydrogenPeroxide'
      ? { step: 'pack', says: 'Pack in wrap or a pouch without cellulose, dry, open.', source: methodTable }
      : methodFacts[method].stored
        ? {
            step: 'pack',
            says: 'Pack open and taken apart as far as the maker says, with its indicators.',
            source: methodTable,
          }
        : { step: 'pack', says: 'Not packed: used at once, never stored as sterile.', source: methodTable }
  return [
    wrap,
    { step: 'route', says: `${name}. ${decision.why.says}`, source: decision.why.source },
    ...cautions
      .filter((reason) => reason.weight === 'caution')
      .map((reason): CardLine => ({ step: 'route', says: reason.says, source: reason.source })),
  ]
}
