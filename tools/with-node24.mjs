// Runs a script under the project's own Node 24, whatever Node started us.
// Usage: node tools/with-node24.mjs SCRIPT [ARG ...]
import { runNode } from './node24.mjs'

process.exitCode = await runNode(process.argv.slice(2))
