import assert from 'node:assert/strict'
import { createPrivateKey } from 'node:crypto'
import { chmodSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, test } from 'node:test'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { noContent } from './content-sums.ts'
import type { Seal } from './seal.ts'
import { sealKey } from './seal-key.ts'
import { readSeals, sealText } from './seal-text.ts'
import { signatureHolds, signSeal } from './sign-seal.ts'

/** RFC 8032, 7.1, test 1: a secret key and the public key that belongs to it. */
const secret = '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60'
const published = 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a'

const unsigned = {
  format: 'nilgrowth seal',
  version: 1,
  site: 'unit-a' as SiteId,
  seq: 12,
  hash: 'ab'.repeat(32),
  recordedAt: '2026-11-30T05:00:00.000Z' as Instant,
  sealedAt: '2026-11-30T06:00:00.000Z' as Instant,
  sums: noContent,
} as const

function inFolder(work: (folder: string) => void): void {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-seal-'))
  try {
    work(folder)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function seal(folder: string): Seal {
  return signSeal(unsigned, sealKey(join(folder, 'key')))
}

describe('a seal', () => {
  test('names the public key that RFC 8032 gives for its secret key', () =>
    inFolder((folder) => {
      const file = join(folder, 'rfc')
      const der = Buffer.concat([Buffer.from('302e020100300506032b657004220420', 'hex'), Buffer.from(secret, 'hex')])
      const key = createPrivateKey({ key: der, format: 'der', type: 'pkcs8' })
      writeFileSync(file, key.export({ type: 'pkcs8', format: 'pem' }), { mode: 0o600 })
      assert.equal(Buffer.from(sealKey(file).publicKey, 'base64url').toString('hex'), published)
    }))

  test('is made with a key for its owner alone, and the same one the next time', () =>
    inFolder((folder) => {
      const file = join(folder, 'deep', 'key')
      const first = sealKey(file)
      assert.equal(statSync(file).mode & 0o777, 0o600)
      assert.equal(sealKey(file).publicKey, first.publicKey)
      chmodSync(file, 0o644)
      assert.throws(() => sealKey(file), /can be read by others.*chmod 600/)
    }))

  test('a file that is no key is named, and not overwritten', () =>
    inFolder((folder) => {
      const file = join(folder, 'key')
      writeFileSync(file, 'hello', { mode: 0o600 })
      assert.throws(() => sealKey(file), /is no private key of Ed25519/)
    }))

  test('does not hold once any field is another', () =>
    inFolder((folder) => {
      const good = seal(folder)
      assert.equal(signatureHolds(good), true)
      const other = seal(join(folder, 'other'))
      const changes: readonly Partial<Seal>[] = [
        { site: 'unit-b' as SiteId },
        { seq: 11 },
        { hash: 'ac'.repeat(32) },
        { recordedAt: unsigned.sealedAt },
        { sealedAt: unsigned.recordedAt },
        { sums: { ...noContent, plain: '1'.padStart(64, '0') } },
        { publicKey: other.publicKey },
        { signature: other.signature },
      ]
      for (const change of changes) assert.equal(signatureHolds({ ...good, ...change }), false, JSON.stringify(change))
    }))

  test('reads back from JSON, from paper, and from paper that was typed in with other spaces', () =>
    inFolder((folder) => {
      const good = seal(folder)
      const texts = [JSON.stringify(good), JSON.stringify(good, null, 2), sealText(good)]
      for (const text of [
        ...texts,
        sealText(good)
          .replaceAll(/(\w) (\w)/g, '$1   $2')
          .replaceAll('\n', '\r\n'),
      ]) {
        assert.deepEqual(readSeals(text), { kind: 'seals', seals: [good] })
      }
      const narrow = sealText(good).replaceAll(/([^\n]{60}) /g, '$1\n')
      assert.deepEqual(readSeals(narrow), { kind: 'seals', seals: [good] })
      const both = { kind: 'seals', seals: [good, good] }
      assert.deepEqual(readSeals(`${sealText(good)}\n${sealText(good)}`), both)
      assert.deepEqual(readSeals(`${JSON.stringify(good)}\n${JSON.stringify(good)}\n`), both)
    }))

  test('a text that is none says what was wanted', () => {
    for (const text of ['', 'hello', '{"a":1}', '{"a":1', 'Seal of a nilgrowth record\nSite: unit']) {
      assert.equal(readSeals(text).kind, 'wrong', text)
    }
  })
})
