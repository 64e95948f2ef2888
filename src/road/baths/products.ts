import { z } from 'zod'
import type { Limit, Policy } from '../policy.ts'
import { type ContactRow, type Figure, type ProductRow, productTable } from './product-table.ts'

/* The table of products as limits: each figure may be changed by the unit, with a reason. */

export type BathProductId = (typeof productTable)[number]['id']
export const bathProductIds = productTable.map((row) => row.id) as [BathProductId, ...BathProductId[]]
export const BathProductId = z.enum(bathProductIds)

export const BathClaim = z.enum(['disinfect', 'sterilise'])
export type BathClaim = z.infer<typeof BathClaim>
/** In a tray by hand, or in a reprocessor that keeps the temperature and pumps the lumens. */
export const BathHow = z.enum(['manual', 'reprocessor'])
export type BathHow = z.infer<typeof BathHow>

interface ContactLimits {
  readonly minutes: Limit<number>
  readonly celsius: Limit<number>
}

export interface BathProduct extends Pick<ProductRow, 'agent' | 'family' | 'notes' | 'singleUse' | 'testEachUse'> {
  readonly id: BathProductId
  readonly contact: Readonly<Record<string, ContactLimits>>
  readonly reuseDays: Limit<number>
  readonly minimumPercent: Limit<number> | null
  readonly unopenedMonths: Limit<number>
}

function productOf(row: ProductRow & { readonly id: BathProductId }): BathProduct {
  const limit = (what: string, title: string, unit: string, figure: Figure, to: number): Limit<number> => ({
    id: `bath-${row.id}-${what}`,
    title: `${row.agent}: ${title}`,
    unit,
    value: figure.value,
    source: figure.source,
    allowed: { from: 0, to },
  })
  const pair = (what: string, title: string, { minutes, celsius }: ContactRow): readonly [string, ContactLimits] => [
    what,
    {
      minutes: limit(`${what}-minutes`, `shortest contact to ${title}`, 'minutes', minutes, 10_000),
      celsius: limit(`${what}-c`, `coldest bath to ${title}`, '°C', celsius, 70),
    },
  ]
  const pairs = (['disinfect', 'sterilise'] as const).flatMap((claim) =>
    Object.entries<ContactRow | undefined>(row[claim]).flatMap(([how, contact]) =>
      contact === undefined ? [] : [pair(`${claim}-${how}`, `${claim}, ${hows[how] ?? how}`, contact)],
    ),
  )
  return Object.freeze({
    id: row.id,
    agent: row.agent,
    family: row.family,
    notes: row.notes,
    singleUse: row.singleUse,
    testEachUse: row.testEachUse,
    contact: Object.fromEntries(pairs),
    reuseDays: limit('reuse-days', 'longest use after activation', 'days', row.reuseDays, 60),
    minimumPercent:
      row.minimumPercent === null
        ? null
        : limit('minimum-percent', 'minimum effective concentration', '%', row.minimumPercent, 20),
    unopenedMonths: limit('unopened-months', 'shelf life unopened', 'months', row.unopenedMonths, 60),
  })
}

const hows: Readonly<Record<string, string>> = {
  manual: 'by hand',
  reprocessor: 'in a reprocessor',
  society: 'as the societies of the specialty endorse it after cleaning',
}

export const bathProducts: readonly BathProduct[] = Object.freeze(productTable.map(productOf))

const byId: ReadonlyMap<string, BathProduct> = new Map(bathProducts.map((product) => [product.id, product]))

/** The product of an id that has been checked. */
export function bathProduct(id: BathProductId): BathProduct | undefined {
  return byId.get(id)
}

export const bathProductLimits: readonly Limit<number>[] = Object.freeze(
  bathProducts.flatMap((product) => [
    ...Object.values(product.contact).flatMap(({ minutes, celsius }) => [minutes, celsius]),
    product.reuseDays,
    ...(product.minimumPercent === null ? [] : [product.minimumPercent]),
    product.unopenedMonths,
  ]),
)

/** Whose contact time this unit goes by, where the label and the societies differ. */
export const bathContactBasis: Limit<string> = {
  id: 'bath-contact-basis',
  title: 'Glutaraldehyde by hand: contact by the label, or by the societies of the specialty after thorough cleaning',
  unit: '',
  value: 'label',
  source: {
    title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities, as quoted',
    edition: '2008',
    clause: 'which of the two applies is the choice of the unit',
    status: 'secondary',
  },
  allowed: { oneOf: ['label', 'society'] },
}

/** Contact time and temperature for this claim, or null when the product does not offer it this way. */
export function contactOf(product: BathProduct, claim: BathClaim, how: BathHow, policy: Policy): ContactLimits | null {
  const { contact } = product
  const society = claim === 'disinfect' && how === 'manual' && policy.limit(bathContactBasis).value === 'society'
  const wanted = society ? (contact['disinfect-society'] ?? contact['disinfect-manual']) : contact[`${claim}-${how}`]
  // A reprocessor without a time of its own goes by the time of the tray; the other way round never.
  return wanted ?? (how === 'reprocessor' ? contact[`${claim}-manual`] : undefined) ?? null
}
