// Types, lint with layer boundaries, format, unused code: what can be said without running the program.
import { join } from 'node:path'
import { root, runNode } from './node24.mjs'

const bin = (path) => join(root, 'node_modules', path)
// What was found right last time is kept in .cache, so that a second look takes seconds.
const typesOf = (project, name) => [
  bin('typescript/bin/tsc'),
  '-p',
  project,
  '--incremental',
  '--tsBuildInfoFile',
  join(root, '.cache', `${name}.tsbuildinfo`),
]
const checks = [
  { name: 'types', args: typesOf('.', 'types') },
  { name: 'types of the screens', args: typesOf('src/web', 'screens') },
  { name: 'lint', args: [bin('oxlint/bin/oxlint'), '--type-aware', '--deny-warnings', '.'] },
  { name: 'format', args: [bin('oxfmt/bin/oxfmt'), '--check', '.'] },
  { name: 'unused code', args: [bin('knip/bin/knip.js')] },
  { name: 'reference pages are up to date', args: [join(root, 'src/cli/main.ts'), 'docs', '--check'] },
]

/** Runs every check, even after one has failed; gives how many passed and failed. */
export async function runStaticChecks() {
  let failed = 0
  for (const { name, args } of checks) {
    const started = Date.now()
    const code = await runNode(args, { cwd: root })
    if (code !== 0) failed += 1
    console.log(`${code === 0 ? 'ok    ' : 'FAILED'} ${name} (${((Date.now() - started) / 1000).toFixed(1)} s)`)
  }
  return { passed: checks.length - failed, failed }
}
