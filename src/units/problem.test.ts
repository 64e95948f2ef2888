import assert from 'node:assert/strict'
import { test } from 'node:test'
import { z } from 'zod'
import { describeProblem, problemsOf } from './problem.ts'

const schema = z.strictObject({
  samples: z.array(z.object({ temperatureC: z.number().min(-273.15) })).min(1),
  method: z.enum(['exact', 'trapezoid']).optional(),
})

function lines(input: unknown): string[] {
  const parsed = schema.safeParse(input)
  return parsed.success ? [] : problemsOf(parsed.error, input).map(describeProblem)
}

test('problemsOf names the field, what was wanted and what came', () => {
  assert.deepEqual(lines({ samples: [{ temperatureC: 'hot' }] }), [
    'samples[0].temperatureC: wanted number, current value is "hot"',
  ])
  assert.deepEqual(lines({ samples: [{ temperatureC: -300 }] }), [
    'samples[0].temperatureC: wanted number >= -273.15, current value is -300',
  ])
  assert.deepEqual(lines({ samples: [] }), ['samples: wanted list of >= 1 entries, current value is []'])
  assert.deepEqual(lines({}), ['samples: wanted array, current value is missing'])
  assert.deepEqual(lines(7), ['input: wanted object, current value is 7'])
})

test('problemsOf names unknown fields and values outside a list', () => {
  assert.deepEqual(lines({ samples: [{ temperatureC: 1 }], sample: 1 }), [
    'sample: wanted no such field, current value is 1',
  ])
  assert.deepEqual(lines({ samples: [{ temperatureC: 1 }], method: 'simpson' }), [
    'method: wanted one of "exact", "trapezoid", current value is "simpson"',
  ])
})
