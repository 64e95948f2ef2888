import { makersWord } from '../../sources.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** A line of the maker's list may name programmes, a temperature and a number of cycles. */
export const makersLimits = defineRouteRule({
  id: 'makers-limits',
  says: 'A method keeps to the programmes, the temperature and the cycles that the maker names.',
  check({ device, ask, offer, facts }) {
    const lines = (device.makerMethods ?? []).filter((each) => each.method === offer.method)
    const against = lines.map((line): RouteFound | null => {
      const { programs, maxTemperatureC, maxCycles } = line
      if (programs !== undefined && (offer.program === undefined || !programs.includes(offer.program))) {
        return {
          weight: offer.program === undefined ? 'notEvaluable' : 'stop',
          says: `The maker allows ${facts.name} only with ${programs.join(' or ')}.`,
          measured: offer.program ?? 'not stated',
          limit: programs.join(', '),
          source: makersWord,
        }
      }
      const celsius = offer.temperatureC ?? facts.fromC
      if (maxTemperatureC !== undefined && celsius > maxTemperatureC) {
        return {
          weight: 'stop',
          says: `${facts.name} is hotter than the maker allows.`,
          measured: `${celsius} °C`,
          limit: `${maxTemperatureC} °C`,
          source: makersWord,
        }
      }
      if (maxTemperatureC !== undefined && offer.temperatureC === undefined && maxTemperatureC < hottest(facts.fromC)) {
        return {
          weight: 'caution',
          says: `Choose a programme of ${maxTemperatureC} °C or less.`,
          limit: `${maxTemperatureC} °C`,
          source: makersWord,
        }
      }
      if (maxCycles !== undefined && (ask.cyclesDone ?? 0) >= maxCycles) {
        return {
          weight: 'stop',
          says: `The maker allows ${maxCycles} cycles of ${facts.name}; they are used up.`,
          measured: `${ask.cyclesDone ?? 0} cycles`,
          limit: `${maxCycles} cycles`,
          source: makersWord,
        }
      }
      return null
    })
    // Two lines for one method are two permissions: one that nothing stands against is enough.
    if (against.some((each) => each === null)) return []
    return against.filter((each) => each !== null)
  },
})

/** A process is run at its lowest temperature or above; the figure from which a ceiling must be looked at. */
function hottest(fromC: number): number {
  return fromC + 30
}
