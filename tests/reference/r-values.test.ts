import assert from 'node:assert/strict'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { test } from 'node:test'
import { z } from 'zod'
import { findWorking } from '#workings/registry.ts'
import { binomialProbability } from '#workings/statistics/special/binomial.ts'
import { betaQuantile, betaTails } from '#workings/statistics/special/incomplete-beta.ts'
import { gammaQuantile, gammaTails } from '#workings/statistics/special/incomplete-gamma.ts'
import { normalLower, normalQuantile } from '#workings/statistics/special/normal.ts'
import { poissonProbability } from '#workings/statistics/special/poisson.ts'

/*
 * Workings and special functions against R. The values are those of r/reference-values.R, kept in checks/r-values.json with the
 * versions of R and of its packages.
 */

const Expected = z.record(z.string(), z.union([z.number(), z.string(), z.array(z.union([z.number(), z.string()]))]))
const Checks = z.strictObject({
  made: z.strictObject({
    by: z.string(),
    R: z.string().regex(/^R version \d/),
    packages: z.record(z.string(), z.string().regex(/^\d/)),
  }),
  special: z
    .array(z.strictObject({ function: z.string(), arguments: z.array(z.number()).min(1).max(3), value: z.number() }))
    .min(150),
  workings: z
    .array(
      z.strictObject({ working: z.string(), input: z.unknown(), expected: Expected, within: z.number().max(1e-6) }),
    )
    .min(28),
})
const checks = Checks.parse(JSON.parse(await readFile(join(import.meta.dirname, 'checks/r-values.json'), 'utf8')))

/** The quantile of Student's t by that of the beta distribution: no working needs t itself, and this tries the beta anew. */
function studentQuantile(p: number, degrees: number): number {
  const x = betaQuantile(2 * (1 - p), degrees / 2, 0.5)
  return Math.sqrt((degrees * (1 - x)) / x)
}

const functions: Readonly<Record<string, (a: number, b: number, c: number) => number>> = {
  betaQuantile,
  betaLower: (a, b, x) => betaTails(a, b, x).lower,
  betaUpper: (a, b, x) => betaTails(a, b, x).upper,
  gammaQuantile,
  gammaLower: (a, x) => gammaTails(a, x).lower,
  gammaUpper: (a, x) => gammaTails(a, x).upper,
  normalQuantile,
  normalLower,
  studentQuantile,
  poissonProbability,
  binomialProbability,
}

function close(found: unknown, wanted: unknown, within: number, what: string): void {
  if (Array.isArray(wanted)) {
    assert.ok(Array.isArray(found) && found.length === wanted.length, `${what}: ${JSON.stringify(found)}`)
    for (const [index, each] of wanted.entries()) close(found[index], each, within, `${what} ${index}`)
  } else if (typeof wanted === 'number') {
    const near = typeof found === 'number' && Math.abs(found - wanted) <= within * Math.max(Math.abs(wanted), 1e-300)
    assert.ok(near, `${what} is ${String(found)}, R has ${wanted}`)
  } else assert.equal(found, wanted, what)
}

for (const { function: name, arguments: given, value } of checks.special) {
  test(`${name}(${given.join(', ')}) as in R`, () => {
    const [a = Number.NaN, b = Number.NaN, c = Number.NaN] = given
    close(functions[name]?.(a, b, c), value, 1e-10, name)
  })
}

for (const { working, input, expected, within } of checks.workings) {
  test(`${working} of ${JSON.stringify(input)} as in R`, () => {
    const result = findWorking(working)?.run(input)
    assert.equal(result?.kind, 'output', JSON.stringify(result))
    for (const [field, wanted] of Object.entries(expected))
      close(Reflect.get(Object(result.output), field), wanted, within, field)
  })
}
