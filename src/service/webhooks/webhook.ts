import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import { kindNames } from '#road/kinds.ts'

/** What is told of: entries of these kinds, or of all. */
export const WebhookKinds = z
  .array(z.enum(['*', ...kindNames] as [string, ...string[]]))
  .min(1)
  .max(200)

/** Where another system wants to be told of entries. Kept beside the record, with the secret that signs what is sent. */
export const Webhook = z.strictObject({
  id: z.uuid(),
  url: z.string().max(500),
  kinds: WebhookKinds,
  secret: z.string(),
  madeAt: Instant,
})
export type Webhook = z.infer<typeof Webhook>

/** One try to tell. */
export const Delivery = z.strictObject({
  message: z.string(),
  kind: z.string(),
  at: Instant,
  /** The status that was answered; null where no answer came. */
  status: z.int().nullable(),
  good: z.boolean(),
  says: z.string(),
})
export type Delivery = z.infer<typeof Delivery>

/** How far it has come. The entries themselves are the outbox: what comes after the cursor is still to be told. */
export const WebhookState = z.strictObject({
  cursor: z.int().min(0),
  failures: z.int().min(0),
  nextAt: Instant.nullable(),
  dead: z.boolean(),
  recent: z.array(Delivery).max(30),
})
export type WebhookState = z.infer<typeof WebhookState>
