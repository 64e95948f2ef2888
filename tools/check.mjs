// npm run check: types, lint with layer boundaries, format, unused code, fast tests. Under two minutes.
import { join } from 'node:path'
import { root, runNode } from './node24.mjs'

const bin = (path) => join(root, 'node_modules', path)
const steps = [
  { name: 'types', args: [bin('typescript/bin/tsc'), '-p', '.'] },
  { name: 'types of the screens', args: [bin('typescript/bin/tsc'), '-p', 'src/web'] },
  { name: 'lint', args: [bin('oxlint/bin/oxlint'), '--type-aware', '--deny-warnings', '.'] },
  { name: 'format', args: [bin('oxfmt/bin/oxfmt'), '--check', '.'] },
  { name: 'unused code', args: [bin('knip/bin/knip.js')] },
  { name: 'fast tests', args: [join(root, 'tools/run-tests.mjs'), 'fast'] },
]

for (const { name, args } of steps) {
  const started = Date.now()
  const code = await runNode(args, { cwd: root })
  console.log(`${code === 0 ? 'ok    ' : 'FAILED'} ${name} (${((Date.now() - started) / 1000).toFixed(1)} s)`)
  if (code !== 0) {
    process.exitCode = 1
    break
  }
}
