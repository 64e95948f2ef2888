// Runs families of tests under node:test and ends with one line, `N passed, N failed`.
// fast: beside the source, no service needed. whole: databases, service and browser. long: hours in small.
import { globSync, mkdtempSync, rmSync } from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
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

/**
 * Files of a minute and more, the longest first, so that no core waits at the end for one of them. The first writes the
 * demonstration; what needs it too comes when it is there.
 */
const longest = [
  'tests/e2e/every-page.test.ts',
  'tests/contract/postgres.test.ts',
  'tests/contract/road-histories.test.ts',
  'tests/e2e/demonstration.test.ts',
  'tests/e2e/list.test.ts',
]
/** Bounded by the clock and of low priority: it runs beside the others and takes none of their places. */
const besides = ['tests/service/fuzz.test.ts']
/** Then what starts browsers, servers and services; what takes seconds fills the rest. */
const thenFolders = ['tests/e2e/', 'tests/contract/', 'tests/crash/', 'tests/service/']

function inOrder(unordered) {
  const place = (file) => {
    const known = longest.indexOf(file)
    if (known >= 0) return known
    const folder = thenFolders.findIndex((each) => file.startsWith(each))
    return longest.length + (folder < 0 ? thenFolders.length : folder)
  }
  return unordered.toSorted((a, b) => place(a) - place(b) || (a < b ? -1 : 1))
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
// What several files need and one of them makes: the written demonstration unit.
const shared = mkdtempSync(join(tmpdir(), 'nilgrowth-tests-'))
process.env.NILGROWTH_TESTS_SHARED = shared
// Each file is a process of its own: what one has compiled the others need not.
process.env.NODE_COMPILE_CACHE = join(shared, 'compiled')
process.on('exit', () => rmSync(shared, { recursive: true, force: true }))
// One more than there are cores: most files wait half of their time, for a browser, a disk or a server.
const concurrency = availableParallelism() + 1
const millisecondsOf = new Map()
const took = ({ nesting, file, details }) => {
  if (nesting === 0) millisecondsOf.set(file, (millisecondsOf.get(file) ?? 0) + details.duration_ms)
}

/** Runs some of the files, so many at once, and counts; done when all of them are. */
async function runSome(some, atOnce) {
  if (some.length === 0) return
  const stream = run({ files: some.map((file) => join(root, file)), concurrency: atOnce, cwd: root })
  stream.on('test:pass', (event) => {
    took(event)
    if (event.details.type !== 'suite' && event.skip === undefined) passed += 1
  })
  stream.on('test:fail', (event) => {
    took(event)
    if (event.details.type !== 'suite') failed += 1
    // Said at once, and not only in the list at the end: of a run that is stopped, the seed of a property would be lost.
    const { error } = event.details
    console.log(`FAILED ${event.name}\n${(error.cause?.message ?? error.message).slice(0, 2000)}`)
  })
  stream.compose(spec).pipe(process.stdout)
  await new Promise((resolve) => stream.on('close', resolve))
}

const isBeside = (file) => besides.includes(file)
await Promise.all([
  runSome(
    inOrder(files).filter((file) => !isBeside(file)),
    concurrency,
  ),
  runSome(files.filter(isBeside), 1),
])

// Where the time goes, so that the whole stays short enough to be run often.
const slowest = [...millisecondsOf].sort(([, a], [, b]) => b - a).slice(0, 25)
for (const [file, milliseconds] of slowest) console.log(`${(milliseconds / 1000).toFixed(1)} s ${relative(root, file)}`)
process.on('exit', () => console.log(`${passed} passed, ${failed} failed`))
process.exitCode = failed > 0 ? 1 : 0
