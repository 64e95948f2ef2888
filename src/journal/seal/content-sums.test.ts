import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import { array, assert as assertProperty, bigInt, constantFrom, nat, property, tuple } from 'fast-check'
import { contentOf, locateChange, noContent, withContent } from './content-sums.ts'
import type { ContentSums } from './seal.ts'

const content = bigInt({ min: 0n, max: 2n ** 250n })
const contents = array(content, { minLength: 1, maxLength: 60 })

function sumsOf(list: readonly bigint[]): ContentSums {
  return list.reduce((sums, one, index) => withContent(sums, index + 1, one), noContent)
}

describe('the place of one changed content', () => {
  test('is found wherever it is, whatever came after the seal', () => {
    const change = constantFrom('altered' as const, 'removed' as const, 'inserted' as const)
    assertProperty(
      property(
        contents,
        array(content, { maxLength: 5 }),
        change,
        nat(),
        content,
        (sealed, later, kind, where, other) => {
          const sums = sumsOf(sealed)
          const seq = sealed.length
          const all = [...sealed, ...later]
          const place = (where % seq) + 1
          if (sealed.includes(other)) return
          // Two like contents side by side could be told apart by nobody; entries have ids, so they never are alike.
          if (new Set(all).size !== all.length) return
          const now = {
            altered: all.with(place - 1, other),
            removed: all.toSpliced(place - 1, 1),
            inserted: all.toSpliced(place - 1, 0, other),
          }[kind]
          assert.deepEqual(locateChange({ ...sums, seq }, now.slice(0, seq + 1)), {
            change: place === seq && kind !== 'inserted' && now.length >= seq ? 'alteredOrRemoved' : kind,
            seq: place,
          })
        },
      ),
      { numRuns: 3000, seed: 20_261_130 },
    )
  })

  test('of two changes none is told, rather than a wrong one', () => {
    const two = tuple(nat(), nat(), content, content)
    assertProperty(
      property(array(content, { minLength: 2, maxLength: 60 }), two, (sealed, [a, b, one, other]) => {
        const seq = sealed.length
        const [first, second] = [a % seq, b % seq]
        if (first === second || sealed[first] === one || sealed[second] === other) return
        const found = locateChange({ ...sumsOf(sealed), seq }, sealed.with(first, one).with(second, other))
        assert.equal(found, 'several')
      }),
      { numRuns: 3000, seed: 20_261_130 },
    )
  })

  test('is the same for an entry that was given another place, and for no other', () => {
    const text = '{"body":{"a":1},"previousHash":"00","seq":1}'
    assert.equal(contentOf(text), contentOf('{"body":{"a":1},"previousHash":"ff","seq":7}'))
    assertProperty(
      property(nat(), (value) => {
        if (value !== 1)
          assert.notEqual(contentOf(text), contentOf(`{"body":{"a":${value}},"previousHash":"00","seq":1}`))
      }),
    )
  })
})
