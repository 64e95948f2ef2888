import assert from 'node:assert/strict'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { test } from 'node:test'
import { z } from 'zod'
import { binomialProbability } from '#workings/statistics/special/binomial.ts'
import { chiSquareUpper } from '#workings/statistics/special/chi-square-upper.ts'
import { betaQuantile, betaTails, betaUpperQuantile } from '#workings/statistics/special/incomplete-beta.ts'
import { gammaQuantile, gammaTails, gammaUpperQuantile } from '#workings/statistics/special/incomplete-gamma.ts'
import { logBeta, logChoose } from '#workings/statistics/special/log-choose.ts'
import { logGamma } from '#workings/statistics/special/log-gamma.ts'
import { normalLower, normalQuantile } from '#workings/statistics/special/normal.ts'
import { poissonProbability } from '#workings/statistics/special/poisson.ts'
import { generatorFrom } from '#workings/statistics/special/seeded-generator.ts'

/*
 * The special functions against values of 60 digits, made by generators/special-functions.py (mpmath, with scipy as a
 * second opinion).
 */

const three = z.tuple([z.number(), z.number().default(Number.NaN), z.number().default(Number.NaN)])
const Checks = z.strictObject({
  rows: z
    .array(z.strictObject({ function: z.string(), arguments: z.array(z.number()).min(1).max(3), value: z.number() }))
    .min(120),
  generator: z.strictObject({
    state: z.tuple([z.number(), z.number(), z.number(), z.number()]),
    bits: z.array(z.number()).length(40),
  }),
})
const checks = Checks.parse(
  JSON.parse(await readFile(join(import.meta.dirname, 'checks/special-functions.json'), 'utf8')),
)

const functions: Readonly<Record<string, (a: number, b: number, c: number) => number>> = {
  logGamma,
  logChoose,
  logBeta,
  gammaLower: (a, x) => gammaTails(a, x).lower,
  gammaUpper: (a, x) => gammaTails(a, x).upper,
  gammaQuantile,
  gammaUpperQuantile,
  betaLower: (a, b, x) => betaTails(a, b, x).lower,
  betaUpper: (a, b, x) => betaTails(a, b, x).upper,
  betaQuantile,
  betaUpperQuantile,
  normalLower,
  normalQuantile,
  chiSquareUpper,
  poissonProbability,
  binomialProbability,
}

/** Relative, but for answers whose last digits come from a subtraction from 1 or of large logarithms. */
const relative = 2e-12
const absolute = 3e-16

for (const { function: name, arguments: given, value } of checks.rows) {
  test(`${name}(${given.join(', ')})`, () => {
    const found = functions[name]?.(...three.parse([...given, ...Array(3 - given.length).fill(undefined)]))
    assert.ok(found !== undefined)
    const off = Math.abs(found - value)
    assert.ok(
      off <= Math.max(relative * Math.abs(value), absolute * (Math.abs(value) > 1e-3 ? 1 : 0)),
      `${found}, wanted ${value}`,
    )
  })
}

test('the generator gives the stream of its public description', () => {
  const { bits } = generatorFrom(checks.generator.state)
  assert.deepEqual(
    checks.generator.bits.map(() => bits()),
    checks.generator.bits,
  )
})
