import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '#road/policy.ts'
import { unfitSecrets } from '#service/routes/sign-in.ts'

const delivered = policyFrom(undefined)
const isFit = (passphrase: string): boolean => unfitSecrets(delivered, { passphrase }).length === 0

for (const passphrase of [
  'passwordpassword',
  'Password Password 2026!',
  'nilgrowth nilgrowth',
  'aaaaaaaaaaaaaaaa',
  'abababababababab',
  '123456789 123456789',
  'Hospital2026 Hospital2026',
  'qwertyuiopqwertyuiop',
  'too short',
])
  test(`${JSON.stringify(passphrase)} is not taken`, () => assert.equal(isFit(passphrase), false))

for (const passphrase of [
  'nine blue gowns of Mira',
  'correct horse battery staple',
  'mijn fiets is gestolen',
  '手術室の青い上着は九枚ありますか',
  'x'.repeat(8) + ' every composition is taken, long ones too '.repeat(4),
])
  test(`${JSON.stringify(passphrase.slice(0, 40))} is taken`, () => assert.equal(isFit(passphrase), true))
