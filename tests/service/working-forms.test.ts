import assert from 'node:assert/strict'
import { test } from 'node:test'
import { workings } from '#workings/registry.ts'
import { jsonSchemaOf } from '#service/json-schema-of.ts'
import { type Shape, shapeOf } from '#web/pages/bench/schema-shape.ts'

const asks = (shape: Shape): readonly string[] =>
  shape.ask === 'group' ? shape.fields.flatMap((field) => asks(field.shape)) : [shape.ask]

for (const { id, input, example } of workings)
  test(`the form of ${id} asks for every figure of its example`, () => {
    const shape = shapeOf(jsonSchemaOf(input, 'input'), example.input)
    if (shape.ask !== 'group') return assert.deepEqual(shape, { ask: 'json' }, 'one of several: written whole')
    const names = shape.fields.map(({ name }) => name)
    for (const name of Object.keys(example.input as object)) assert.ok(names.includes(name), name)
  })

test('a figure that may be three is asked for as the example has it; what is left out may be left out', () => {
  const amount = {
    anyOf: [
      { type: 'number', minimum: 0 },
      { type: 'object', properties: { low: { type: 'number' }, high: { type: 'number' } }, required: ['low'] },
    ],
  }
  assert.deepEqual(shapeOf(amount, 3), { ask: 'number', least: 0, most: undefined })
  assert.deepEqual(asks(shapeOf(amount, { low: 1, high: 2 })), ['number', 'number'])
  assert.deepEqual(shapeOf({ anyOf: [{ type: 'number' }, { type: 'null' }] }, null), { ask: 'json' })
  const of = shapeOf(amount, { low: 1 })
  assert.deepEqual(of.ask === 'group' && of.fields.map(({ needed }) => needed), [true, false])
})

test('most of what workings ask for has a form of its own', () => {
  const all = workings.flatMap(({ input, example }) => asks(shapeOf(jsonSchemaOf(input, 'input'), example.input)))
  assert.ok(all.filter((ask) => ask === 'json').length < all.length / 10)
})
