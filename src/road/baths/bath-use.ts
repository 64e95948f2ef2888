import { type BathReason, bathReasons } from '#workings/physics/bath-rules.ts'
import type { Source } from '#units/source.ts'
import { type Instant, instant, millis } from '../instant.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { type BathClaim, type BathHow, type BathProduct, contactOf } from './products.ts'
import { failedStripPractice, labelDecides, testEachUse } from './sources.ts'

export type StripResult = 'pass' | 'fail' | { readonly percent: number }

/** All that is asked of one use of a bath. Null is what nobody recorded. */
export interface BathUse {
  readonly at: Instant
  readonly product: BathProduct
  readonly claim: BathClaim
  readonly how: BathHow
  readonly activatedAt: Instant
  readonly expiresAt: Instant | null
  readonly strip: StripResult | null
  readonly temperatureC: number | null
  readonly immersedAt: Instant | null
  readonly removedAt: Instant | null
  readonly fullyImmersed: boolean | null
  readonly lumensFilled: boolean | null
  readonly cleanedAndDry: boolean | null
}

/** The claim is one that the product makes this way. */
export function claimOffered(use: BathUse, policy: Policy): readonly Found[] {
  if (contactOf(use.product, use.claim, use.how, policy) !== null) return []
  const how = use.how === 'manual' ? 'by hand' : 'in a reprocessor'
  return [
    {
      weight: 'stop',
      says: `${use.product.agent} does not ${use.claim} ${how}. Choose another product or another method.`,
      source: labelDecides,
    },
  ]
}

/** The strip of this very use is at or above the minimum. */
export function strongEnough(use: BathUse, policy: Policy): readonly Found[] {
  const { product, strip } = use
  const minimum = minimumOf(use, policy)
  if (strip === null && !product.testEachUse) return []
  if (typeof strip === 'object' && strip !== null && minimum === null) {
    return [
      {
        weight: 'notEvaluable',
        says: `Only the label of ${product.agent} knows the smallest strength. Read the strip as passed or failed by its pad.`,
        measured: `${strip.percent} %`,
        source: labelDecides,
      },
    ]
  }
  const advice =
    strip === null
      ? 'Test the bath with a strip now, before this use.'
      : 'Discard the whole bath and pour a fresh one. Do not top it up, and do not leave anything in for longer instead.'
  return foundOf(use, policy, 'strength', {
    advice,
    source: strip === null ? testEachUse : (minimum?.source ?? failedStripPractice),
  })
}

/** Within the reuse days and the expiry until the contact ends. */
export function youngEnough(use: BathUse, policy: Policy): readonly Found[] {
  const advice = 'The bath is too old, whatever the strip says. Discard it and pour a fresh one.'
  const found = foundOf(use, policy, 'age', { advice, source: policy.limit(use.product.reuseDays).source })
  if (found.length > 0 || use.expiresAt !== null) return found
  return [
    {
      weight: 'notEvaluable',
      says: 'The expiry of the batch is not recorded. Read it from the container.',
      source: labelDecides,
    },
  ]
}

/** At least as warm as the label asks; nothing is extrapolated. */
export function warmEnough(use: BathUse, policy: Policy): readonly Found[] {
  const limit = contactOf(use.product, use.claim, use.how, policy)?.celsius
  const advice =
    use.temperatureC === null
      ? 'Measure it before this use.'
      : 'Warm the bath or wait. A longer time in a cold bath counts only if the label gives one.'
  return foundOf(use, policy, 'temperature', {
    advice,
    source: limit === undefined ? labelDecides : policy.limit(limit).source,
  })
}

/** Under for at least the time of the label. */
export function longEnough(use: BathUse, policy: Policy): readonly Found[] {
  const limit = contactOf(use.product, use.claim, use.how, policy)?.minutes
  const advice =
    use.removedAt === null
      ? 'Wait until the clock has run out.'
      : 'Begin the contact again from its start; times do not add up.'
  return foundOf(use, policy, 'contact', {
    advice,
    source: limit === undefined ? labelDecides : policy.limit(limit).source,
  })
}

/** Wholly under, lumens filled, and cleaned and dry beforehand. */
export function reachedEverywhere(use: BathUse, policy: Policy): readonly Found[] {
  return [
    ...foundOf(use, policy, 'fully immersed', {
      advice: 'Whatever was above the surface was not treated: begin again with all of it under.',
      source: labelDecides,
    }),
    ...foundOf(use, policy, 'lumens filled', {
      advice: 'Air in a lumen keeps the liquid out: begin again and fill each with a syringe.',
      source: labelDecides,
    }),
    ...foundOf(use, policy, 'cleaned and dry before', {
      advice: 'Soil shields microbes and water weakens the bath: clean, dry, and begin again.',
      source: labelDecides,
    }),
  ]
}

/** When the instruments may come out; null when the product does not make the claim. */
export function contactEndsAt(
  use: Pick<BathUse, 'product' | 'claim' | 'how'> & { readonly immersedAt: Instant },
  policy: Policy,
): Instant | null {
  const contact = contactOf(use.product, use.claim, use.how, policy)
  if (contact === null) return null
  return instant(millis(use.immersedAt) + policy.limit(contact.minutes).value * 60_000)
}

interface Told {
  readonly advice: string
  readonly source: Source
}

function foundOf(use: BathUse, policy: Policy, rule: string, { advice, source }: Told): readonly Found[] {
  const reason = reasonsOf(use, policy).find((each) => each.rule === rule && each.result !== 'met')
  if (reason === undefined) return []
  return [
    {
      weight: reason.result === 'notMet' ? 'stop' : 'notEvaluable',
      says: `${titles[rule] ?? rule}. ${advice}`,
      measured: reason.says,
      source,
    },
  ]
}

const titles: Readonly<Record<string, string>> = {
  strength: 'The strength of the bath is not proven for this use',
  age: 'The bath is past its time',
  temperature: 'The bath is not proven warm enough',
  contact: 'The contact is not long enough',
  'fully immersed': 'Not everything is recorded as wholly under the surface',
  'lumens filled': 'Not every lumen is recorded as filled',
  'cleaned and dry before': 'It is not recorded as cleaned and dry beforehand',
}

/** The conditions as the working computes them, with the figures in force. */
function reasonsOf(use: BathUse, policy: Policy): readonly BathReason[] {
  const contact = contactOf(use.product, use.claim, use.how, policy)
  if (contact === null) return []
  const minimum = minimumOf(use, policy)
  return bathReasons({
    at: use.at,
    activatedAt: use.activatedAt,
    reuseDays: policy.limit(use.product.reuseDays).value,
    expiresAt: use.expiresAt ?? farFuture,
    strip: stripFor(use.strip, minimum?.value ?? null),
    temperatureC: use.temperatureC,
    labelTemperatureC: policy.limit(contact.celsius).value,
    immersedAt: use.immersedAt,
    removedAt: use.removedAt,
    labelContactMinutes: policy.limit(contact.minutes).value,
    fullyImmersed: use.fullyImmersed,
    lumensFilled: use.lumensFilled,
    cleanAndDry: use.cleanedAndDry,
  })
}

const farFuture = '9999-12-31T00:00:00.000Z'

function minimumOf(use: BathUse, policy: Policy): { readonly value: number; readonly source: Source } | null {
  return use.product.minimumPercent === null ? null : policy.limit(use.product.minimumPercent)
}

function stripFor(strip: StripResult | null, minimumPercent: number | null) {
  if (strip === null || typeof strip === 'string') return strip
  return minimumPercent === null ? null : { strengthPercent: strip.percent, minimumPercent }
}

/** Whether a strip reading shows enough strength; null when only the label could say. */
export function isStripPass(result: StripResult, product: BathProduct, policy: Policy): boolean | null {
  if (typeof result === 'string') return result === 'pass'
  const minimum = product.minimumPercent
  return minimum === null ? null : result.percent >= policy.limit(minimum).value
}
