import type { MakerMethod } from '../../attributes.ts'
import { makersWord } from '../../sources.ts'
import { type Crossing, defineRouteRule, type RouteFound } from '../route-rule.ts'

/** A line of the maker's list may name programmes, a temperature and a number of cycles. */
export const makersLimits = defineRouteRule({
  id: 'makers-limits',
  says: 'A method keeps to the programmes, the temperature and the cycles that the maker names.',
  check(crossing) {
    const lines = (crossing.device.makerMethods ?? []).filter((each) => each.method === crossing.offer.method)
    const found = lines.map((line) => [
      ...byProgram(line, crossing),
      ...byTemperature(line, crossing),
      ...byCycles(line, crossing),
    ])
    // Two lines for one method are two permissions: the one that says least against it counts.
    return found.toSorted((a, b) => weightOf(a) - weightOf(b))[0] ?? []
  },
})

function weightOf(found: readonly RouteFound[]): number {
  if (found.some((each) => each.weight === 'stop')) return 3
  if (found.some((each) => each.weight === 'notEvaluable')) return 2
  return found.length > 0 ? 1 : 0
}

function byProgram({ programs }: MakerMethod, { offer, facts }: Crossing): readonly RouteFound[] {
  if (programs === undefined || (offer.program !== undefined && programs.includes(offer.program))) return []
  return [
    {
      weight: offer.program === undefined ? 'caution' : 'stop',
      says: `The maker allows ${facts.name} only with ${programs.join(' or ')}.`,
      measured: offer.program ?? 'programme not chosen yet',
      limit: programs.join(', '),
      source: makersWord,
    },
  ]
}

function byTemperature({ maxTemperatureC }: MakerMethod, { offer, facts }: Crossing): readonly RouteFound[] {
  if (maxTemperatureC === undefined) return []
  const celsius = offer.temperatureC ?? facts.fromC
  const figures = { limit: `${maxTemperatureC} °C`, source: makersWord }
  if (celsius > maxTemperatureC) {
    return [
      {
        weight: 'stop',
        says: `${facts.name} is hotter than the maker allows.`,
        measured: `${celsius} °C`,
        ...figures,
      },
    ]
  }
  if (offer.temperatureC !== undefined) return []
  return [{ weight: 'caution', says: `Choose a programme of ${maxTemperatureC} °C or less.`, ...figures }]
}

function byCycles({ maxCycles }: MakerMethod, { ask, facts }: Crossing): readonly RouteFound[] {
  if (maxCycles === undefined) return []
  const figures = { limit: `${maxCycles} cycles`, source: makersWord }
  if (ask.cyclesDone === undefined) {
    return [{ weight: 'note', says: `The maker allows ${maxCycles} cycles of ${facts.name}: count them.`, ...figures }]
  }
  if (ask.cyclesDone < maxCycles) return []
  return [
    {
      weight: 'stop',
      says: `The maker allows ${maxCycles} cycles of ${facts.name}; they are used up.`,
      measured: `${ask.cyclesDone} cycles`,
      ...figures,
    },
  ]
}
