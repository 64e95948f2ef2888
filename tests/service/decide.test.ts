import assert from 'node:assert/strict'
import { test } from 'node:test'
import { topics } from '#road/deciding/topics.ts'
import { runService } from '../support/running-service.ts'

test('/api/decide lists every topic with its schema, decides each example, and names a field that cannot be used', async () => {
  await using service = await runService()
  const { body } = await service.ask('GET', '/api/decide')
  assert.ok(Array.isArray(body))
  assert.deepEqual(
    body.map((each) => Reflect.get(each, 'topic')),
    topics.map(({ topic }) => topic),
  )
  assert.ok(body.every((each) => Object.keys(Reflect.get(each, 'given')).length > 0))
  for (const { topic, example } of topics) {
    // One after the other: each answer is held against its topic.
    // oxlint-disable-next-line no-await-in-loop
    const answer = await service.ask('POST', '/api/decide', { topic, given: example.given })
    assert.equal(answer.status, 200, topic)
    assert.partialDeepStrictEqual(answer.body, { topic, decision: example.decision })
  }
  const wrong = await service.ask('POST', '/api/decide', {
    topic: 'recall',
    given: { method: 'tea', loads: [], failed: '1' },
  })
  assert.equal(wrong.status, 422)
  assert.match(JSON.stringify(wrong.body), /given\.method/)
  assert.equal((await service.ask('POST', '/api/decide', { topic: 'tea', given: {} })).status, 422)
})
