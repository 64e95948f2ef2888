import { makersWord } from '../../sources.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'
import type { Method } from '../../methods.ts'
import type { RouteDevice } from '../ask.ts'

/** The maker's list comes before everything else: what is not on it is not done, and no list is no permission. */
export const makersList = defineRouteRule({
  id: 'makers-list',
  says: 'A method is used only if the maker of the device lists it.',
  check: ({ device, offer, facts }) => [makersAnswer(device, offer.method, facts.name)],
})

function makersAnswer(device: RouteDevice, method: Method, name: string): RouteFound {
  switch (listed(device, method)) {
    case 'listed':
      return { weight: 'note', says: `The maker lists ${name}.`, source: makersWord }
    case 'notListed':
      return { weight: 'stop', says: `${name} is not in the list of the maker.`, source: makersWord }
    case 'noInstructions':
      return {
        weight: 'notEvaluable',
        says: `No instructions for use on file that speak of ${name}. Get them from the maker.`,
        source: makersWord,
      }
  }
}

export function listed(device: RouteDevice, method: Method): 'listed' | 'notListed' | 'noInstructions' {
  if (device.makerMethods !== undefined) {
    return device.makerMethods.some((each) => each.method === method) ? 'listed' : 'notListed'
  }
  if (method !== 'steam') return 'noInstructions'
  switch (device.steam) {
    case 'allowed':
      return 'listed'
    case 'barred':
      return 'notListed'
    case 'noInstructionsOnFile':
      return 'noInstructions'
  }
}
