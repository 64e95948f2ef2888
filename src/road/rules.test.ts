import assert from 'node:assert/strict'
import { globSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { kindNames } from './kinds.ts'
import { limits } from './limits.ts'
import { entriesPage, limitsPage, rulesPage } from './reference-pages.ts'
import { rules } from './rules.ts'

const here = import.meta.dirname
const fileOf = (path: string): string => path.split('/').at(-1)?.replace('.ts', '') ?? ''

test('the list holds every rule file once, and each rule is named like its file', () => {
  const files = globSync('*/rules/*.ts', { cwd: here }).filter((file) => !file.endsWith('.test.ts'))
  assert.deepEqual(rules.map((rule) => rule.id).sort(), files.map(fileOf).sort())
  assert.ok(Object.isFrozen(rules) && rules.every(Object.isFrozen))
})

test('every rule is tried by a test of its own or by a row of the release table', () => {
  const tests = globSync('**/*.test.ts', { cwd: here }).map((file) => readFileSync(join(here, file), 'utf8'))
  const untried = rules.filter(
    (rule) => !tests.some((text) => text.includes(`/${rule.id}.ts'`) || text.includes(`'${rule.id}'`)),
  )
  assert.deepEqual(
    untried.map((rule) => rule.id),
    [],
  )
})

test('only the missing of a count sheet and the waiting of an implant may be excepted', () => {
  const excepted = rules.filter((rule) => rule.exceptionAllowed).map((rule) => rule.id)
  assert.deepEqual(excepted, ['packed-with-count', 'release-implant-waits'])
})

test('limits have unlike ids, a source, and are themselves within their bounds', () => {
  assert.equal(new Set(limits.map((limit) => limit.id)).size, limits.length)
  for (const { id, value, allowed, source } of limits) {
    assert.ok(source.title.length > 0, id)
    if (allowed === undefined) assert.equal(typeof value, 'boolean', id)
    else if ('oneOf' in allowed) assert.ok(typeof value === 'string' && allowed.oneOf.includes(value), id)
    else assert.ok(typeof value === 'number' && value >= allowed.from && value <= allowed.to, id)
  }
})

test('the reference pages name every rule, kind and limit, and warn of what nobody confirmed', () => {
  for (const rule of rules) assert.ok(rulesPage().includes(`| \`${rule.id}\` |`), rule.id)
  for (const kind of kindNames) assert.ok(entriesPage().includes(`\`${kind}\``), kind)
  for (const limit of limits) assert.ok(limitsPage().includes(`| \`${limit.id}\` |`), limit.id)
  assert.match(limitsPage(), /unverified, check your local standard/)
})
