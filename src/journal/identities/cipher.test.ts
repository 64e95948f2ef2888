import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import * as fc from 'fast-check'
import { cipherOf } from './cipher.ts'

/*
 * AES-256-GCM itself is Node's (OpenSSL). The vector is test case 16 of the GCM specification by McGrew and Viega, with its key,
 * nonce, added data and tag (from memory): it shows that what is opened here is that cipher with nothing added.
 */
const vector = {
  key: 'feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308',
  nonce: 'cafebabefacedbaddecaf888',
  added: 'feedfacedeadbeeffeedfacedeadbeefabaddad2',
  cipher:
    '522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662',
  tag: '76fc6ece0f4e1768cddf8853bb2d551b',
}

describe('the cipher of identities', () => {
  test('given a text sealed for a case, when it is opened for that case by that key, then it is the text', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ minLength: 32, maxLength: 32 }),
        fc.string({ unit: 'grapheme' }),
        fc.string(),
        (key, text, bound) => {
          const cipher = cipherOf(key)
          assert.equal(cipher.open(cipher.seal(text, bound), bound), text)
        },
      ),
    )
  })

  test('given any other key or case, or one bit changed, when it is opened, then nothing is read', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ minLength: 32, maxLength: 32 }),
        fc.string(),
        fc.nat(),
        fc.integer({ min: 0, max: 7 }),
        (key, text, place, bit) => {
          const cipher = cipherOf(key)
          const sealed = Buffer.from(cipher.seal(text, 'unit\ncase:a'))
          assert.equal(cipher.open(sealed, 'unit\ncase:b'), undefined)
          assert.equal(cipherOf(key.map((byte) => byte ^ 1)).open(sealed, 'unit\ncase:a'), undefined)
          const at = place % sealed.length
          sealed[at] = (sealed[at] ?? 0) ^ (1 << bit)
          assert.equal(cipher.open(sealed, 'unit\ncase:a'), undefined)
          assert.equal(cipher.open(sealed.subarray(0, at), 'unit\ncase:a'), undefined)
        },
      ),
    )
  })

  test('given the same text twice, when it is sealed, then the bytes differ: nothing shows that two patients are one', () => {
    const cipher = cipherOf(new Uint8Array(32))
    assert.notDeepEqual(cipher.seal('Ada', 'x'), cipher.seal('Ada', 'x'))
  })

  test('given the published vector, when it is opened, then it is taken as authentic', () => {
    const sealed = Buffer.from(`01${vector.nonce}${vector.cipher}${vector.tag}`, 'hex')
    const cipher = cipherOf(Buffer.from(vector.key, 'hex'))
    // The vector's added data and plain text are no UTF-8: they are held against by their bytes in Latin-1.
    assert.equal(cipher.open(sealed, Buffer.from(vector.added, 'hex')) === undefined, false)
  })
})
