import assert from 'node:assert/strict'
import { test } from 'node:test'
import { casePolicy } from '#road/deciding/case-policy.ts'
import { policyFrom } from '#road/policy.ts'
import { passphraseLeast } from '#road/people/limits.ts'
import { unfitSecrets } from '#service/sign-in/unfit-secrets.ts'

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

/* Where the policy allows eight characters, as few as NIST SP 800-63B allows for a secret that is not alone. */
const short = casePolicy({ [passphraseLeast.id]: 8 })
// Published as commonest in more than one yearly list; from memory. The list that is asked is another one's work.
for (const passphrase of [
  'sunshine',
  'football',
  'princess1',
  'Superman',
  'qazwsxedc',
  '1qaz2wsx3edc4rfv',
  'Q1W2E3R4T5Y6U7I8',
])
  test(`${JSON.stringify(passphrase)} is not taken where eight characters are enough`, () => {
    const [found] = unfitSecrets(short, { passphrase })
    assert.equal(found?.current, 'one of those that everybody tries first')
  })
test('a short one of one’s own is taken where eight characters are enough', () =>
  assert.deepEqual(unfitSecrets(short, { passphrase: 'kiruvelo' }), []))
