import { z } from 'zod'
import { type Decided, defineTopic } from '../deciding/topic.ts'
import { stands } from '../finding.ts'
import { instant } from '../instant.ts'
import { type Policy, policyFrom } from '../policy.ts'
import type { Found } from '../rule.ts'
import type { LimitValue } from '../unit/fold.ts'
import {
  type BathUse,
  claimOffered,
  longEnough,
  reachedEverywhere,
  strongEnough,
  warmEnough,
  youngEnough,
} from './bath-use.ts'
import { noGlutaraldehydeForMycobacteria, noImplant, noUrologyWithBladderCancer } from './patient-limits.ts'
import { BathClaim, BathHow, BathProductId, bathContactBasis, bathProduct } from './products.ts'
import { agentReview, cdcAgents, testEachUse } from './sources.ts'

const seen = (what: string) => z.boolean().nullable().default(null).describe(`${what}; null when nobody recorded it`)

const Given = z.strictObject({
  product: BathProductId.describe('composition of the bath'),
  claim: BathClaim.default('disinfect').describe('what the contact is meant to do'),
  how: BathHow.default('manual').describe('in a tray by hand or in a reprocessor'),
  contactBasis: z.enum(['label', 'society']).default('label').describe('whose contact time the unit goes by'),
  temperatureC: z.number().nullable().describe('temperature of the bath, °C'),
  contactMinutes: z.number().nonnegative().nullable().describe('minutes under the surface'),
  daysSinceActivation: z.number().nonnegative().describe('age of the bath when the contact ends, days of 24 h'),
  daysToExpiry: z
    .number()
    .nullable()
    .default(null)
    .describe('days until the printed expiry when the contact ends, negative once it is past; null when not recorded'),
  strip: z
    .enum(['pass', 'fail'])
    .or(z.strictObject({ percent: z.number().nonnegative() }))
    .nullable()
    .describe('strip read for this very use; null when there is none'),
  fullyImmersed: seen('all of it was under the surface'),
  lumensFilled: seen('every lumen was filled; true when there is none'),
  cleanedAndDry: seen('cleaned and dried beforehand'),
  implant: z.boolean().default(false),
  urological: z.boolean().default(false),
  bladderCancer: z.enum(['yes', 'no', 'notKnown']).default('notKnown'),
  mycobacteriaSuspected: z.boolean().default(false),
})
type Given = z.infer<typeof Given>

/** Any day will do: only the distances count. A bath must be within its days until the contact ends, so they count from there. */
const ended = Date.parse('2026-06-15T10:00:00.000Z')
const day = 86_400_000

function useOf(given: Given, product: BathUse['product']): BathUse {
  const { contactMinutes } = given
  const isTimed = contactMinutes !== null
  const began = ended - (contactMinutes ?? 0) * 60_000
  return {
    product,
    claim: given.claim,
    how: given.how,
    at: instant(ended),
    // A bath of this very day, given as of no days, was there when the contact began.
    activatedAt: instant(Math.min(ended - given.daysSinceActivation * day, began)),
    expiresAt: given.daysToExpiry === null ? null : instant(ended + given.daysToExpiry * day),
    strip: given.strip,
    temperatureC: given.temperatureC,
    immersedAt: isTimed ? instant(began) : null,
    removedAt: isTimed ? instant(ended) : null,
    fullyImmersed: given.fullyImmersed,
    lumensFilled: given.lumensFilled,
    cleanedAndDry: given.cleanedAndDry,
  }
}

function decide(given: Given): Decided {
  const product = bathProduct(given.product)
  if (product === undefined) return { decision: 'reject', findings: [] }
  const policy = policyWith({ [bathContactBasis.id]: given.contactBasis })
  const use = useOf(given, product)
  const findings = [
    ...named('immersed-as-claimed', claimOffered(use, policy)),
    ...named('bath-strong', strongEnough(use, policy)),
    ...named('bath-young', youngEnough(use, policy)),
    ...named('bath-warm', warmEnough(use, policy)),
    ...named('immersed-long-enough', longEnough(use, policy)),
    ...named('immersed-everywhere', reachedEverywhere(use, policy)),
    ...named('immersed-without-implant', noImplant(given)),
    ...named('bath-not-for-bladder-cancer', noUrologyWithBladderCancer(product, given)),
    ...named('bath-not-for-mycobacteria', noGlutaraldehydeForMycobacteria(product, given)),
  ]
  return { decision: findings.some(stands) ? 'reject' : 'accept', findings }
}

function named(rule: string, found: readonly Found[]) {
  return found.map((each) => ({ rule, ...each }))
}

/** The policy as delivered, but for these. */
export function policyWith(values: Readonly<Record<string, LimitValue>> = {}): Policy {
  const as = policyFrom(undefined)
  return {
    version: 'as given',
    limit: (limit) => {
      const value = values[limit.id]
      return value === undefined ? as.limit(limit) : { ...as.limit(limit), value: value as typeof limit.value }
    },
  }
}

const whole = { fullyImmersed: true, lumensFilled: true, cleanedAndDry: true, daysToExpiry: 200 }

export const bathUseTopic = defineTopic({
  topic: 'bath-use',
  title: 'May this use of a bath count?',
  decisions: {
    accept: 'every condition of this use is met; ready for use at once, never stored as sterile',
    reject: 'a condition is not met, or nobody recorded it: treat again',
  },
  given: Given,
  sources: [agentReview, cdcAgents, testEachUse],
  example: {
    given: {
      product: 'ortho-phthalaldehyde-0.55',
      temperatureC: 20,
      contactMinutes: 12,
      daysSinceActivation: 10,
      strip: 'pass',
      ...whole,
    },
    decision: 'accept',
  },
  decide,
})
