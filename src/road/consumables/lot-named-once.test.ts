import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs } from '../rule-harness.ts'
import type { LotKnown } from './lot-fold.ts'
import { lotNamedOnce } from './rules/lot-named-once.ts'

const year = '2027-01-01T00:00:00.000Z' as ReturnType<typeof at>
const lot = (state: Partial<LotKnown> = {}) =>
  knownAs('lot', 'lot:7', { of: 'wrap', name: 'Pouches', number: '7', maker: 'Acme', openedAt: at('08:00'), ...state })
const opened = (body: Partial<Bodies['lot-opened']> = {}) =>
  entered('lot-opened', {
    lot: 'lot:7',
    of: 'wrap',
    name: 'Pouches',
    number: '7',
    maker: 'Acme',
    expiresAt: year,
    ...body,
  })
const weights = (known: readonly ReturnType<typeof lot>[], entry: Parameters<typeof findingsOf>[2]) =>
  findingsOf(lotNamedOnce, { known }, entry).map((finding) => finding.weight)

test('lot-named-once: the same lot may be told again, another may not take its key', () => {
  assert.deepEqual(weights([], opened()), [])
  assert.deepEqual(weights([lot()], opened()), [])
  assert.deepEqual(weights([lot()], opened({ maker: 'ACME' })), [])
  assert.deepEqual(weights([lot()], opened({ maker: 'Other' })), ['stop'])
  assert.deepEqual(weights([lot()], opened({ of: 'detergent' })), ['stop'])
  assert.deepEqual(weights([lot()], opened({ name: 'Sheets' })), ['stop'])
  assert.deepEqual(weights([lot({ of: 'chemical', name: '', maker: '' })], opened({ of: 'chemical', maker: '' })), [])
})

test('lot-named-once: a bottle, and the container of a bath, do not take the key of another kind', () => {
  const container = { bath: 'bath:b', product: 'ortho-phthalaldehyde-0.55', lot: 'lot:7', place: 'Wash' } as const
  const poured = entered('bath-poured', { ...container, litres: 8, activatedAt: at('09:00'), expiresAt: year })
  assert.deepEqual(weights([lot()], poured), ['stop'])
  assert.deepEqual(weights([lot({ of: 'chemical' })], poured), [])
  const three = { fullStrength: { tried: 3, passed: 3 }, halfStrength: { tried: 3, failed: 3 } }
  const bottle = { lot: 'lot:7', product: 'ortho-phthalaldehyde-0.55', number: '7', expiresAt: year } as const
  const strips = entered('strip-bottle-opened', { ...bottle, discardAt: year, ...three })
  assert.deepEqual(weights([lot()], strips), ['stop'])
  assert.deepEqual(weights([lot({ of: 'strengthStrip', maker: '' })], strips), [])
})
