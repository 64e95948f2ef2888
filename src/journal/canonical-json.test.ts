import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import canonicalize from 'canonicalize'
import * as fc from 'fast-check'
import { canonicalJson } from './canonical-json.ts'

/** The number whose IEEE 754 bits are these. */
function numberOfBits(bits: string): number {
  return Buffer.from(bits, 'hex').readDoubleBE()
}

describe('canonicalJson() gives the examples of RFC 8785', () => {
  test('section 3.2.2: literals, numbers and strings', () => {
    const input = {
      numbers: JSON.parse('[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001]') as unknown,
      string: '\u20ac$\u000f\nA\'\u0042"\\\\"/',
      literals: [null, true, false],
    }
    const output =
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],` +
      String.raw`"string":"€$\u000f\nA'B\"\\\\\"/"}`
    assert.equal(canonicalJson(input), output)
  })

  test('section 3.2.3: members by UTF-16 code units', () => {
    const input = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    }
    const order = canonicalJson(input).matchAll(/:"([^"]+)"/g)
    assert.deepEqual(
      [...order].map(([, name]) => name),
      [
        'Carriage Return',
        'One',
        'Control',
        'Latin Small Letter O With Diaeresis',
        'Euro Sign',
        'Emoji: Grinning Face',
        'Hebrew Letter Dalet With Dagesh',
      ],
    )
  })

  const numbers: readonly (readonly [string, string])[] = [
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ]
  test('appendix B: numbers by their bits', () => {
    for (const [bits, text] of numbers) assert.equal(canonicalJson(numberOfBits(bits)), text)
    for (const bits of ['7fffffffffffffff', '7ff0000000000000']) {
      assert.throws(() => canonicalJson(numberOfBits(bits)), /numbers must be finite/)
    }
  })
})

test('canonicalJson() agrees with an independent implementation on any JSON', () => {
  fc.assert(
    fc.property(fc.jsonValue({ stringUnit: 'binary' }), (value) => {
      assert.equal(canonicalJson(value), canonicalize(value))
    }),
    { numRuns: 1000, seed: 8785 },
  )
})

test('canonicalJson() gives back the same text for what it wrote', () => {
  fc.assert(
    fc.property(fc.jsonValue({ stringUnit: 'binary' }), (value) => {
      const text = canonicalJson(value)
      assert.equal(canonicalJson(JSON.parse(text)), text)
    }),
    { numRuns: 300, seed: 8785 },
  )
})

test('canonicalJson() leaves out what is undefined and refuses what is no JSON', () => {
  assert.equal(canonicalJson({ b: undefined, a: [] }), '{"a":[]}')
  assert.throws(() => canonicalJson('\ud800'), /lone surrogate/)
  assert.throws(() => canonicalJson({ '\udc00': 1 }), /lone surrogate/)
  assert.throws(() => canonicalJson({ a: 1n }), /current type is bigint/)
  assert.throws(() => canonicalJson([undefined]), /current type is undefined/)
})
