import { z } from 'zod'
import { type Decided, defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { attributeShape, contacts, Lumen } from './attributes.ts'
import { methodFacts, methods } from './methods.ts'
import { RouteAsk } from './route/ask.ts'
import { type MethodAnswer, type Route, routeOf, routesByUse } from './route/route.ts'
import { unofferedMethods } from './unoffered-methods.ts'
import { reasonAgainst } from './route/maker-lists-unoffered.ts'
import { intendedUse, makersWord, methodsCompared, steamPreferred } from './sources.ts'

/** A device as a case file states it. What is left out is not stated, which is never a yes. */
export const DeviceFacts = z.strictObject({
  name: z.string().min(1).max(120).default('Device'),
  contact: z.enum(contacts),
  steam: z.enum(['allowed', 'barred', 'noInstructionsOnFile']).default('noInstructionsOnFile'),
  lumens: z.array(Lumen).default([]),
  parts: z.int().min(1).default(1),
  insulated: z.boolean().default(false),
  optic: z.boolean().default(false),
  singleUse: z.boolean().default(false),
  lifeInUses: z.int().positive().optional(),
  ...attributeShape,
})

const Given = z.strictObject({
  device: DeviceFacts,
  /** A method that somebody picked: the answer says whether it may be used. Without it, which method to take. */
  picked: z.enum([...methods, ...unofferedMethods]).optional(),
  ask: RouteAsk.extend({
    toStore: z.boolean().default(true),
    hldForLaparoscope: z.boolean().default(false),
    offers: z
      .array(RouteAsk.shape.offers.element.extend({ owned: z.boolean().default(true) }))
      .max(40)
      .optional(),
  }).default({ toStore: true, hldForLaparoscope: false }),
})

export const routeTopic = defineTopic({
  topic: 'route',
  title: 'Which way a device is reprocessed, or whether a picked method may be used',
  decisions: {
    steam: 'Take steam.',
    dryHeat: 'Take dry heat.',
    ethyleneOxide: 'Take ethylene oxide, with its aeration.',
    hydrogenPeroxide: 'Take hydrogen peroxide gas.',
    formaldehyde: 'Take formaldehyde with steam.',
    peraceticLiquid: 'Take peracetic acid in its machine, and use the device at once.',
    bathSterilise: 'Take a sterilising bath, and use the device at once.',
    bathDisinfect: 'Take a bath for high-level disinfection, and use the device at once.',
    allowed: 'The picked method may be used.',
    refused: 'The picked method may not be used.',
    hold: 'Nothing is open, or something that decides is not stated: the device waits.',
    doNotReprocess: 'The device is thrown away after use.',
    discard: 'The device is destroyed.',
  },
  given: Given,
  sources: [makersWord, steamPreferred, methodsCompared, intendedUse],
  example: {
    given: {
      device: {
        name: 'Trocar',
        contact: 'critical',
        heatStable134: true,
        moistureStable: true,
        materials: ['stainlessSteel'],
        makerMethods: [{ method: 'steam' }, { method: 'ethyleneOxide' }],
      },
    },
    decision: 'steam',
  },
  decide({ device, picked, ask }) {
    const offers = ask.offers ?? methods.map((method) => ({ method, owned: true }))
    const full = { ...ask, offers }
    const route = routeOf(device, full)
    const decided = picked === undefined ? whichWay(route) : mayUse(route, picked)
    // Which use is meant was said already: then the others are no answer.
    const meant = ask.site ?? ask.use ?? ask.contact
    return meant === undefined ? { ...decided, findings: [...decided.findings, ...byUse(device, full)] } : decided
  },
})

/** What the answer would be for each use by itself. */
function byUse(device: z.infer<typeof DeviceFacts>, ask: RouteAsk): readonly Finding[] {
  return routesByUse(device, ask).map(({ use, route }) => {
    const { decision } = route
    const way = decision.kind === 'go' ? `take ${methodFacts[decision.offer.method].name}` : decision.why.says
    return { rule: 'use', weight: 'note', says: `${use}: ${route.contactWhy.says} Then: ${way}`, source: intendedUse }
  })
}

function whichWay(route: Route): Decided {
  const { decision } = route
  const unoffered = route.unoffered.map(({ reason }) => reason)
  if (decision.kind === 'go') {
    const chosen = route.methods.find((each) => each.offer === decision.offer)
    const findings = [route.contactWhy, decision.why, ...(chosen?.reasons ?? []), ...unoffered]
    return { decision: decision.offer.method, findings }
  }
  const against = route.methods.flatMap((each) => each.reasons.filter((reason) => isAgainst(reason)))
  return { decision: decision.kind, findings: unlike([route.contactWhy, decision.why, ...unoffered, ...against]) }
}

/** Of several offers of a method, such as two baths, one that is open is enough. */
function mayUse(route: Route, picked: NonNullable<z.infer<typeof Given>['picked']>): Decided {
  const unoffered = unofferedMethods.find((each) => each === picked)
  if (unoffered !== undefined) return { decision: 'refused', findings: [route.contactWhy, reasonAgainst(unoffered)] }
  const answers = route.methods.filter((each) => each.offer.method === picked)
  const best = (['allowed', 'held', 'barred'] as const)
    .map((standing) => answers.find((each) => each.standing === standing))
    .find((answer) => answer !== undefined)
  if (best === undefined) {
    const says = 'The unit does not offer this method.'
    return { decision: 'refused', findings: [{ rule: 'owned', weight: 'stop', says, source: makersWord }] }
  }
  return { decision: wordOf(best), findings: [route.contactWhy, ...best.reasons] }
}

function wordOf({ standing }: MethodAnswer): string {
  switch (standing) {
    case 'allowed':
      return 'allowed'
    case 'held':
      return 'hold'
    case 'barred':
      return 'refused'
  }
}

function isAgainst({ weight }: Finding): boolean {
  return weight === 'stop' || weight === 'notEvaluable'
}

function unlike(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Map(findings.map((finding) => [`${finding.rule} ${finding.says}`, finding]))
  return [...seen.values()]
}
