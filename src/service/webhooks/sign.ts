import { createHmac, randomBytes } from 'node:crypto'

/*
 * The signature of the open Standard Webhooks scheme (version 1, from memory): HMAC-SHA-256 over id, time and body with points
 * between, in base64; the secret is base64 too, after `whsec_`.
 */

const prefix = 'whsec_'

export function newSecret(): string {
  return `${prefix}${randomBytes(32).toString('base64')}`
}

export interface Message {
  readonly id: string
  /** Seconds since 1970. */
  readonly timestamp: number
  readonly body: string
}

export function signatureOf(secret: string, { id, timestamp, body }: Message): string {
  const key = Buffer.from(secret.slice(prefix.length), 'base64')
  return `v1,${createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64')}`
}
