// npm run check: before every commit, under two minutes.
import { join } from 'node:path'
import { root, runNode } from './node24.mjs'
import { runStaticChecks } from './static-checks.mjs'

const { failed } = await runStaticChecks()
const code = await runNode([join(root, 'tools/run-tests.mjs'), 'fast'], { cwd: root })
process.exitCode = failed > 0 || code !== 0 ? 1 : 0
