import assert from 'node:assert/strict'
import { test } from 'node:test'
import { sentence } from './sentence.ts'

test('a sentence ends once, whether what was joined ended or not', () => {
  assert.equal(sentence('taken back in the recall'), 'taken back in the recall.')
  assert.equal(sentence('taken back in the recall. '), 'taken back in the recall.')
  assert.equal(sentence('Why?'), 'Why?')
})
