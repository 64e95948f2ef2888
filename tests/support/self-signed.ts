import { generateKeyPairSync, randomBytes, sign } from 'node:crypto'

/*
 * A certificate that signs itself, for `localhost`, written out in DER as RFC 5280, 4.1 lays it down (from memory): no
 * program beside Node is needed to try TLS.
 */

const part = (tag: number, ...inside: readonly Uint8Array[]): Buffer => {
  const body = Buffer.concat(inside)
  const bytes = body.length < 0x80 ? [body.length] : [0x82, body.length >> 8, body.length & 0xff]
  return Buffer.concat([Buffer.from([tag, ...bytes]), body])
}
const sequence = (...inside: readonly Uint8Array[]) => part(0x30, ...inside)
const oid = (...bytes: readonly number[]) => part(0x06, Buffer.from(bytes))
const bits = (bytes: Uint8Array) => part(0x03, Buffer.from([0]), bytes)
const time = (at: Date) => part(0x18, Buffer.from(at.toISOString().replaceAll(/[-:T]|\.\d+/g, ''), 'ascii'))

const ecdsaWithSha256 = sequence(oid(0x2a, 0x86, 0x48, 0xce, 0x3d, 0x04, 0x03, 0x02))
const commonName = oid(0x55, 0x04, 0x03)
const subjectAltName = oid(0x55, 0x1d, 0x11)
const dnsName = (name: string) => part(0x82, Buffer.from(name, 'ascii'))

/** A new pair of certificate and key, in PEM, good for a day. */
export function selfSigned(name = 'localhost'): { readonly cert: string; readonly key: string } {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const now = Date.now()
  const who = sequence(part(0x31, sequence(commonName, part(0x0c, Buffer.from(name, 'utf8')))))
  const serial = Buffer.concat([Buffer.from([1]), randomBytes(8)])
  const content = sequence(
    part(0xa0, part(0x02, Buffer.from([2]))),
    part(0x02, serial),
    ecdsaWithSha256,
    who,
    sequence(time(new Date(now - 60_000)), time(new Date(now + 86_400_000))),
    who,
    publicKey.export({ type: 'spki', format: 'der' }),
    part(0xa3, sequence(sequence(subjectAltName, part(0x04, sequence(dnsName(name)))))),
  )
  const whole = sequence(content, ecdsaWithSha256, bits(sign('sha256', content, privateKey)))
  const lines = whole.toString('base64').match(/.{1,64}/g) ?? []
  return {
    cert: ['-----BEGIN CERTIFICATE-----', ...lines, '-----END CERTIFICATE-----', ''].join('\n'),
    key: privateKey.export({ type: 'pkcs8', format: 'pem' }).toString(),
  }
}
