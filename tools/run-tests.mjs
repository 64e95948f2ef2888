// Runs families of tests under node:test and ends with one line, `N passed, N failed`.
// fast: beside the source, no service needed. whole: databases, service and browser. long: hours in small.
import { globSync } from 'node:fs'
import { join } from 'node:path'
import { run } from 'node:test'
import { spec } from 'node:test/reporters'
import { root } from './node24.mjs'

const families = {
  fast: ['src/**/*.test.ts', 'tests/reference/**/*.test.ts', 'tests/layers/**/*.test.ts'],
  whole: [
    'tests/contract/**/*.test.ts',
    'tests/crash/**/*.test.ts',
    'tests/service/**/*.test.ts',
    'tests/tools/**/*.test.ts',
    'tests/e2e/**/*.test.ts',
  ],
  long: ['tests/long/**/*.test.ts'],
}
const args = process.argv.slice(2)
const before = (name) => Number(args.find((arg) => arg.startsWith(`--${name}-before=`))?.split('=')[1] ?? 0)
const wanted = args.filter((arg) => !arg.startsWith('--'))
const files = wanted
  .flatMap((family) => families[family] ?? [family])
  .flatMap((pattern) => globSync(pattern, { cwd: root }))

if (files.length === 0) {
  throw new Error(`No test file matches ${wanted.join(', ')}: wanted ${Object.keys(families).join(', ')} or a glob`)
}

let passed = before('passed')
let failed = before('failed')
const stream = run({ files: files.sort().map((file) => join(root, file)), concurrency: 2, cwd: root })
stream.on('test:pass', (event) => {
  if (event.details.type !== 'suite' && event.skip === undefined) passed += 1
})
stream.on('test:fail', (event) => {
  if (event.details.type !== 'suite') failed += 1
})
stream.compose(spec).pipe(process.stdout)
await new Promise((resolve) => stream.on('close', resolve))
process.on('exit', () => console.log(`${passed} passed, ${failed} failed`))
process.exitCode = failed > 0 ? 1 : 0
