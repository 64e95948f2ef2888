import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import { copyFileSync, globSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { test } from 'node:test'

/*
 * The linter keeps the layers apart. A linter that is configured wrongly keeps nothing apart and
 * says so to nobody; so each boundary is breached here on purpose, and the breach must be caught.
 */

const root = join(import.meta.dirname, '../..')
const oxlint = join(root, 'node_modules/oxlint/bin/oxlint')

function lint(file: string, text: string): { failed: boolean; output: string } {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-layers-'))
  try {
    copyFileSync(join(root, '.oxlintrc.json'), join(folder, '.oxlintrc.json'))
    const path = join(folder, file)
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, text)
    const done = spawnSync(process.execPath, [oxlint, '--deny-warnings', '.'], { cwd: folder, encoding: 'utf8' })
    return { failed: done.status !== 0, output: done.stdout + done.stderr }
  } finally {
    rmSync(folder, { recursive: true })
  }
}

const use = 'export const used = thing\n'
const breaches = [
  {
    layer: 'units',
    file: 'src/units/a.ts',
    text: `import { thing } from '#workings/a.ts'\n${use}`,
    says: 'units imports',
  },
  {
    layer: 'workings',
    file: 'src/workings/physics/a.ts',
    text: `import { thing } from '#road/a.ts'\n${use}`,
    says: 'workings imports',
  },
  {
    layer: 'road',
    file: 'src/road/cleaning/a.ts',
    text: `import { thing } from '#journal/a.ts'\n${use}`,
    says: 'road imports',
  },
  {
    layer: 'road, types too',
    file: 'src/road/a.ts',
    text: `import type { Thing } from '#service/a.ts'\nexport type Used = Thing\n`,
    says: 'road imports',
  },
  {
    layer: 'road, by path',
    file: 'src/road/cleaning/rules/a.ts',
    text: `import { thing } from '../../../journal/a.ts'\n${use}`,
    says: 'by its # name',
  },
  {
    layer: 'journal',
    file: 'src/journal/sqlite/a.ts',
    text: `import { thing } from '#service/a.ts'\n${use}`,
    says: 'journal imports',
  },
  {
    layer: 'service',
    file: 'src/service/a.ts',
    text: `import { thing } from '#cli/a.ts'\n${use}`,
    says: 'does not know its callers',
  },
  {
    layer: 'demo',
    file: 'src/demo/a.ts',
    text: `import { thing } from '#journal/a.ts'\n${use}`,
    says: 'demo only writes',
  },
  {
    layer: 'web',
    file: 'src/web/pages/a.tsx',
    text: `import { thing } from '#journal/a.ts'\n${use}`,
    says: 'web imports',
  },
  {
    layer: 'no node in the core',
    file: 'src/road/a.ts',
    text: `import { readFileSync } from 'node:fs'\nexport const used = readFileSync\n`,
    says: 'no-nodejs-modules',
  },
  {
    layer: 'no clock in the core',
    file: 'src/workings/a.ts',
    text: 'export const now = () => Date.now()\n',
    says: 'time comes in',
  },
  {
    layer: 'no randomness in the core',
    file: 'src/units/a.ts',
    text: 'export const dice = () => Math.random()\n',
    says: 'randomness comes in',
  },
  {
    layer: 'no network in the core',
    file: 'src/road/a.ts',
    text: `export const got = () => fetch('/')\n`,
    says: 'fetch',
  },
  {
    layer: 'no any',
    file: 'src/road/a.ts',
    text: 'export function give(x: any) {\n  return x\n}\n',
    says: 'no-explicit-any',
  },
]

for (const breach of breaches) {
  test(`the linter catches a breach: ${breach.layer}`, () => {
    const { failed, output } = lint(breach.file, breach.text)
    assert.ok(failed, output)
    assert.match(output, new RegExp(breach.says))
  })
}

test('the linter lets allowed imports pass', () => {
  const allowed = [
    ['src/workings/physics/a.ts', `import { thing } from '#units/a.ts'\n${use}`],
    ['src/road/a.ts', `import { thing } from '#workings/a.ts'\n${use}`],
    ['src/journal/a.ts', `import { thing } from '#road/a.ts'\n${use}`],
    ['src/web/pages/a.tsx', `import type { Thing } from '#service/api-types.ts'\nexport type Used = Thing\n`],
  ] as const
  for (const [file, text] of allowed) {
    const { failed, output } = lint(file, text)
    assert.ok(!failed, `${file}: ${output}`)
  }
})

/** What no linter rule catches: a clock that is read by making a date of nothing. */
const readsTheClock = /new Date\(\s*\)|(?<![.\w])Date\(\s*\)/

test('the core never makes a date of nothing', () => {
  assert.match('const now = new Date()', readsTheClock)
  const core = ['units', 'workings', 'road', 'demo'].flatMap((layer) => globSync(`src/${layer}/**/*.ts`, { cwd: root }))
  assert.ok(core.length > 100)
  assert.deepEqual(
    core.filter((file) => readsTheClock.test(readFileSync(join(root, file), 'utf8'))),
    [],
  )
})
