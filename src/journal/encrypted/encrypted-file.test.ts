import assert from 'node:assert/strict'
import { argon2Sync } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, describe, test } from 'node:test'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { decryptFile, encryptedAbout, encryptFile, isEncrypted } from './encrypted-file.ts'
import { keyFileOf, makeKeyFile, passphraseOf, type Secret } from './secret.ts'

const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-encrypted-'))
after(() => rmSync(folder, { recursive: true }))

const about = {
  madeAt: '2026-11-30T06:00:00.000Z' as Instant,
  heads: [{ site: 'unit-a' as SiteId, seq: 3, hash: 'ab'.repeat(32) }],
  content: 'sqlite',
} as const

let files = 0
const newName = (): string => join(folder, `file-${(files += 1)}`)

function keySecret(): Secret {
  const file = newName()
  assert.equal(makeKeyFile(file), true)
  assert.equal(makeKeyFile(file), false, 'a key that is there is never made anew')
  assert.equal(statSync(file).mode & 0o777, 0o600)
  return keyFileOf(file)
}

/** Bytes that gzip cannot make smaller, so that they fill several chunks. */
function noise(bytes: number): Buffer {
  let state = 1
  return Buffer.from(Array.from({ length: bytes }, () => (state = (state * 48_271) % 2_147_483_647) & 0xff))
}

async function encrypted(content: Buffer, secret: Secret): Promise<string> {
  const [from, to] = [newName(), newName()]
  writeFileSync(from, content)
  await encryptFile({ from, to }, about, secret)
  return to
}

async function decrypted(from: string, secret: Secret): Promise<Buffer> {
  const to = newName()
  await decryptFile({ from, to }, secret)
  assert.equal(statSync(to).mode & 0o777, 0o600)
  return readFileSync(to)
}

describe('an encrypted backup', () => {
  test('comes back byte for byte, whatever its length', async () => {
    const secret = keySecret()
    for (const bytes of [0, 1, 1000, 65_536, 200_000]) {
      const content = noise(bytes)
      const file = await encrypted(content, secret)
      assert.equal(isEncrypted(file), true)
      assert.deepEqual(encryptedAbout(file).heads, about.heads)
      assert.ok((await decrypted(file, secret)).equals(content), `${bytes} bytes`)
    }
  })

  test('comes back with its passphrase, whose key argon2id makes as RFC 9106 says', async () => {
    // RFC 9106, 5.3: the test vector of Argon2id.
    const tag = argon2Sync('argon2id', {
      message: Buffer.alloc(32, 1),
      nonce: Buffer.alloc(16, 2),
      secret: Buffer.alloc(8, 3),
      associatedData: Buffer.alloc(12, 4),
      memory: 32,
      passes: 3,
      parallelism: 4,
      tagLength: 32,
    })
    assert.equal(tag.toString('hex'), '0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659')
    const file = newName()
    writeFileSync(file, 'correct horse, wet staple\n')
    const backup = await encrypted(Buffer.from('the record'), passphraseOf(file))
    assert.equal(String(await decrypted(backup, passphraseOf(file))), 'the record')
    assert.deepEqual(encryptedAbout(backup).key.from, 'passphrase')
    writeFileSync(file, 'another passphrase')
    await assert.rejects(decrypted(backup, passphraseOf(file)), /the key is not the one/)
    await assert.rejects(decrypted(backup, keySecret()), /wants a passphrase/)
    writeFileSync(file, 'short\n')
    assert.throws(() => passphraseOf(file), /must have 12 letters or more: it has 5/)
  })

  test('holds nothing of its content in the clear, and two of the same content differ', async () => {
    const secret = keySecret()
    const content = Buffer.from('patient 4711 '.repeat(1000))
    const [one, two] = [await encrypted(content, secret), await encrypted(content, secret)]
    assert.equal(readFileSync(one).includes('patient'), false)
    assert.notDeepEqual(readFileSync(one).subarray(-64), readFileSync(two).subarray(-64))
  })

  test('is refused once any byte of it is another, a chunk is moved, or its end is cut off', async () => {
    const secret = keySecret()
    const file = await encrypted(noise(200_000), secret)
    const whole = readFileSync(file)
    const header = whole.indexOf('\n') + 1
    const chunk = 65_536 + 16
    const changes: readonly (readonly [string, Buffer])[] = [
      ...[header, header + 5, header + chunk + 1, whole.length - 1].map((at) => {
        const copy = Buffer.from(whole)
        copy[at] = (copy[at] ?? 0) ^ 1
        return [`byte ${at}`, copy] as const
      }),
      ['a number of the header', Buffer.from(whole.toString('latin1').replace('"seq":3', '"seq":4'), 'latin1')],
      ['cut within a chunk', whole.subarray(0, whole.length - 10)],
      ['cut between chunks', whole.subarray(0, header + chunk * 2)],
      ['nothing but the header', whole.subarray(0, header)],
      [
        'two chunks swapped',
        Buffer.concat([
          whole.subarray(0, header),
          whole.subarray(header + chunk, header + 2 * chunk),
          whole.subarray(header, header + chunk),
          whole.subarray(header + 2 * chunk),
        ]),
      ],
      ['something behind its end', Buffer.concat([whole, Buffer.alloc(100)])],
    ]
    for (const [what, bytes] of changes) {
      const copy = newName()
      writeFileSync(copy, bytes)
      await assert.rejects(decrypted(copy, secret), { name: 'StoreError' }, what)
    }
    await assert.rejects(decrypted(file, keySecret()), /the key is not the one that it was made with/)
    assert.ok((await decrypted(file, secret)).length === 200_000, 'the file itself is still good')
  })

  test('a header that asks for all the memory there is, is not obeyed', async () => {
    const file = newName()
    writeFileSync(file, 'correct horse, wet staple')
    const backup = await encrypted(Buffer.from('x'), passphraseOf(file))
    const greedy = readFileSync(backup, 'latin1').replace('"memoryKibibytes":65536', '"memoryKibibytes":99999999')
    writeFileSync(backup, greedy, 'latin1')
    await assert.rejects(decrypted(backup, passphraseOf(file)), /header of the backup .* cannot be read/)
  })
})
