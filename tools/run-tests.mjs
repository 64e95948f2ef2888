// Runs families of tests under node:test and ends with one line, `N passed, N failed`.
// fast: beside the source, no service needed. whole: databases, service and browser. long: hours in small.
import { globSync } from 'node:fs'
import { join, relative } from 'node:path'
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
const millisecondsOf = new Map()
const took = ({ nesting, file, details }) => {
  if (nesting === 0) millisecondsOf.set(file, (millisecondsOf.get(file) ?? 0) + details.duration_ms)
}
stream.on('test:pass', (event) => {
  took(event)
  if (event.details.type !== 'suite' && event.skip === undefined) passed += 1
})
stream.on('test:fail', (event) => {
  took(event)
  if (event.details.type !== 'suite') failed += 1
  // Said at once, and not only in the list at the end: of a run that is stopped, the seed of a property would be lost.
  const { error } = event.details
  console.log(`FAILED ${event.name}\n${String(error.cause?.message ?? error.message).slice(0, 2000)}`)
})
stream.compose(spec).pipe(process.stdout)
await new Promise((resolve) => stream.on('close', resolve))

// Where the time goes, so that the whole stays short enough to be run often.
const slowest = [...millisecondsOf].sort(([, a], [, b]) => b - a).slice(0, 25)
for (const [file, milliseconds] of slowest) console.log(`${(milliseconds / 1000).toFixed(1)} s ${relative(root, file)}`)
process.on('exit', () => console.log(`${passed} passed, ${failed} failed`))
process.exitCode = failed > 0 ? 1 : 0
