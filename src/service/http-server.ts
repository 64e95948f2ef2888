import { readFileSync } from 'node:fs'
import { createServer as createPlain, type RequestListener, type Server } from 'node:http'
import { createServer as createEncrypted } from 'node:https'
import { createSecureContext } from 'node:tls'
import type { TlsFiles } from './config.ts'
import { UnusableSetting } from './unusable-setting.ts'

export interface Certificate {
  readonly cert: string
  readonly key: string
}

/*
 * A body that comes drop by drop holds its connection for two minutes at most; a photo of 16 MiB comes through in that time
 * at 1.2 Mbit/s. A missing Host is answered by the service, with a problem that says so, where Node would answer with nothing.
 */
const options = {
  requireHostHeader: false,
  headersTimeout: 20_000,
  requestTimeout: 120_000,
  keepAliveTimeout: 72_000,
  connectionsCheckingInterval: 5000,
} as const

/** Listens by TLS when there is a certificate. */
export function serverFor(certificate: Certificate | null, handler: RequestListener): Server {
  if (certificate === null) return createPlain(options, handler)
  return createEncrypted({ ...options, ...certificate, minVersion: 'TLSv1.2' }, handler)
}

/** Reads certificate and key, and holds them against each other, so that a wrong pair is said at the start. */
export function readCertificate({ certFile, keyFile }: TlsFiles): Certificate {
  const cert = readPem('NILGROWTH_TLS_CERT_FILE', certFile)
  const key = readPem('NILGROWTH_TLS_KEY_FILE', keyFile)
  try {
    createSecureContext({ cert, key })
  } catch (error) {
    throw new UnusableSetting({
      field: 'NILGROWTH_TLS_CERT_FILE, NILGROWTH_TLS_KEY_FILE',
      wanted: 'a certificate in PEM, with those that stand over it, and the key of the first',
      current: error instanceof Error ? error.message : String(error),
    })
  }
  return { cert, key }
}

function readPem(field: string, file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error)
    throw new UnusableSetting({
      field,
      wanted: 'a file that can be read',
      current: `${JSON.stringify(file)} (${code})`,
    })
  }
}
