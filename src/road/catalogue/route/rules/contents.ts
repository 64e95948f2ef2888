import { methodsCompared, methodTable } from '../../sources.ts'
import type { Method } from '../../methods.ts'
import type { RouteDevice } from '../ask.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** Cellulose, linen, liquid, oil and powder each close some methods. */
export const contents = defineRouteRule({
  id: 'contents',
  says: 'Cellulose, linen, liquids, oils and powders are kept from the methods that they spoil or that do not reach through them.',
  check: ({ device, offer, facts }) =>
    spoilers
      .filter(({ has, bars }) => device[has] === true && bars.includes(offer.method))
      .map(({ what, why, source }): RouteFound => ({
        weight: 'stop',
        says: `It holds ${what}: ${facts.name} ${why}.`,
        source,
      })),
})

interface Spoiler {
  readonly has: keyof RouteDevice
  readonly what: string
  readonly why: string
  readonly bars: readonly Method[]
  readonly source: RouteFound['source']
}

const spoilers: readonly Spoiler[] = [
  {
    has: 'hasCellulose',
    what: 'cellulose',
    why: 'is taken up by it',
    bars: ['hydrogenPeroxide'],
    source: methodsCompared,
  },
  { has: 'hasLinen', what: 'linen', why: 'is taken up by it', bars: ['hydrogenPeroxide'], source: methodsCompared },
  {
    has: 'hasCellulose',
    what: 'cellulose',
    why: 'chars or soaks it',
    bars: ['dryHeat', 'peraceticLiquid', 'bathSterilise', 'bathDisinfect'],
    source: methodTable,
  },
  {
    has: 'hasLinen',
    what: 'linen',
    why: 'chars or soaks it',
    bars: ['dryHeat', 'peraceticLiquid', 'bathSterilise', 'bathDisinfect'],
    source: methodTable,
  },
  {
    has: 'hasLiquidOrOil',
    what: 'liquid or oil',
    why: 'does not work in liquids',
    bars: ['hydrogenPeroxide'],
    source: methodsCompared,
  },
  {
    has: 'hasLiquidOrOil',
    what: 'liquid or oil',
    why: 'does not reach through it',
    bars: ['steam', 'ethyleneOxide', 'formaldehyde', 'peraceticLiquid', 'bathSterilise', 'bathDisinfect'],
    source: methodTable,
  },
  {
    has: 'hasPowder',
    what: 'powder',
    why: 'does not reach through it',
    bars: [
      'steam',
      'ethyleneOxide',
      'hydrogenPeroxide',
      'formaldehyde',
      'peraceticLiquid',
      'bathSterilise',
      'bathDisinfect',
    ],
    source: methodTable,
  },
]
