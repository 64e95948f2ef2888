import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import { stands } from '../finding.ts'
import { instant } from '../instant.ts'
import { policyFrom } from '../policy.ts'
import { BathProductId, bathProduct } from './products.ts'
import { withinShelfLife } from './shelf-life.ts'
import { cdcAgents } from './sources.ts'

const day = (what: string) => z.iso.date().describe(`${what}, a calendar day`)
const start = (date: string) => instant(Date.parse(`${date}T00:00:00.000Z`))

export const bathShelfLifeTopic = defineTopic({
  topic: 'bath-shelf-life',
  title: 'May an unopened container still be poured?',
  decisions: { accept: 'within its shelf life and its expiry', reject: 'too old, or its age is not known' },
  given: z.strictObject({
    product: BathProductId,
    madeOn: day('when it was made').nullable().default(null),
    expiresOn: day('last day printed on the container').nullable().default(null),
    openedOn: day('when it is to be opened'),
  }),
  sources: [cdcAgents],
  example: {
    given: { product: 'ortho-phthalaldehyde-0.55', madeOn: '2024-03-01', openedOn: '2026-03-02' },
    decision: 'reject',
  },
  decide({ product: id, madeOn, expiresOn, openedOn }) {
    const product = bathProduct(id)
    if (product === undefined) return { decision: 'reject', findings: [] }
    const container = {
      madeAt: madeOn === null ? null : start(madeOn),
      expiresAt: expiresOn === null ? null : start(expiresOn),
      openedAt: start(openedOn),
    }
    const findings = withinShelfLife(product, container, policyFrom(undefined)).map((found) => ({
      rule: 'bath-within-shelf-life',
      ...found,
    }))
    return { decision: findings.some(stands) ? 'reject' : 'accept', findings }
  },
})
