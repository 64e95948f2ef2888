import { request as requestHttp } from 'node:http'
import { request as requestHttps } from 'node:https'
import { isIP } from 'node:net'
import { isPublicAddress, lookupPublic, NotPublic } from './public-address.ts'
import { type Message, signatureOf } from './sign.ts'

export interface Answered {
  readonly status: number | null
  readonly good: boolean
  readonly says: string
}

/** Why an address cannot be told; undefined where it can. Which addresses its name leads to is seen when it is told. */
export function whyNoTarget(text: string, privateAllowed: boolean): string | undefined {
  let url: URL
  try {
    url = new URL(text)
  } catch {
    return 'an address such as https://example.org/hook'
  }
  if (url.username !== '' || url.password !== '') return 'an address without a name and a password in it'
  if (url.protocol !== 'https:' && !(privateAllowed && url.protocol === 'http:'))
    return 'an address that begins with https://'
  const host = url.hostname.replace(/^\[|\]$/g, '')
  if (!privateAllowed && isIP(host) !== 0 && !isPublicAddress(host)) return 'a public address'
  return undefined
}

/** Long enough for a slow receiver, short enough that one does not hold up the others for long. */
const patienceMilliseconds = 10_000

/** Sends a message, signed; follows no redirect, reads no answer but its status. */
export function postSigned(
  { url, secret }: { readonly url: string; readonly secret: string },
  message: Message,
  privateAllowed: boolean,
): Promise<Answered> {
  const why = whyNoTarget(url, privateAllowed)
  if (why !== undefined) return Promise.resolve({ status: null, good: false, says: `wanted ${why}` })
  const target = new URL(url)
  const send = target.protocol === 'https:' ? requestHttps : requestHttp
  return new Promise((resolve) => {
    const failed = (error: Error): void => {
      const says = error.name === 'TimeoutError' || error.name === 'AbortError' ? 'no answer in 10 s' : error.message
      resolve({ status: null, good: false, says: (error instanceof NotPublic ? error.message : says).slice(0, 200) })
    }
    const request = send(
      target,
      {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          'content-length': Buffer.byteLength(message.body),
          'user-agent': 'nilgrowth',
          'webhook-id': message.id,
          'webhook-timestamp': String(message.timestamp),
          'webhook-signature': signatureOf(secret, message),
        },
        signal: AbortSignal.timeout(patienceMilliseconds),
        // A connection of its own each time: what it leads to is looked up and held against the rule each time.
        agent: false,
        ...(privateAllowed ? {} : { lookup: lookupPublic }),
      },
      (response) => {
        const status = response.statusCode ?? 0
        response.destroy()
        const good = status >= 200 && status < 300
        resolve({ status, good, says: good ? 'taken' : `answered ${status}` })
      },
    )
    request.on('error', failed)
    request.end(message.body)
  })
}
